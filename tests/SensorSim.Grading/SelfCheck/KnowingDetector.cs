// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.SelfCheck;

/// <summary>Not a detector but a check of this program: it knows the scenario and gives what a perfect detector would.</summary>
/// <remarks>
/// It makes the stream once more for itself, some seconds ahead, and tells truth as marks, 0.3 s after each event; readings only where their
/// signals are usable, saturation only where the pulse is strong enough. With it every line of the table has to be met.
/// </remarks>
internal sealed class KnowingDetector : IDetector
{
    private const long Second = 1_000_000_000;
    private const long AheadNs = 12 * Second;
    private const long LatencyNs = 300_000_000;
    private readonly SensorStream _stream;
    private readonly SampleBlock _block;
    private readonly KnownBody _body;
    private readonly KnownReadings _readings;
    private readonly MarkPlacer _placer;
    private readonly List<TruthEvent> _waiting = [];
    private long _nextReadingNs = 8 * Second;

    /// <summary>Creates one for a run.</summary>
    /// <param name="scenario">The scenario that the detector will be fed with.</param>
    public KnowingDetector(Scenario scenario)
    {
        _stream = scenario.CreateStream();
        _block = new SampleBlock(_stream.Format, _stream.Format.Clock.TicksPerSecond);
        _body = new KnownBody();
        _placer = new MarkPlacer(_stream.Format, _stream.Format.Clock.Nanoseconds(_stream.EndTick));
        _readings = new KnownReadings(scenario, _body, _placer);
    }

    /// <inheritdoc/>
    public string Name => "self-check: truth itself";

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        // Everything is there already.
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output) => Tell(_stream.Format.Clock.Nanoseconds(block.EndTick), output);

    /// <inheritdoc/>
    public void Flush(DetectorOutput output) => Tell(long.MaxValue / 4, output);

    /// <inheritdoc/>
    public void Dispose()
    {
        // Nothing to let go of.
    }

    private void Tell(long nowNs, DetectorOutput output)
    {
        ReadAhead(nowNs);
        foreach (TruthEvent truth in _waiting.Where(t => t.TimeNs + LatencyNs <= nowNs).OrderBy(t => t.TimeNs))
        {
            long emittedNs = truth.TimeNs + LatencyNs;
            if (truth.Kind is MarkKind.RPeak or MarkKind.PulseFootTangent or MarkKind.PulseFootSecondDerivative)
            {
                _placer.Add(output, truth.Channel, truth.Kind, truth.TimeNs, emittedNs);
            }

            _readings.OfBeat(truth, emittedNs, output);
        }

        _waiting.RemoveAll(t => t.TimeNs + LatencyNs <= nowNs);
        for (; _nextReadingNs + LatencyNs <= Math.Min(nowNs, _placer.EndNs); _nextReadingNs += 2 * Second)
        {
            _readings.OfWindow(_nextReadingNs, _nextReadingNs + LatencyNs, output);
        }

        _body.ForgetBefore(nowNs - (60 * Second));
    }

    private void ReadAhead(long nowNs)
    {
        while (_stream.PositionTick < _stream.EndTick && _stream.Format.Clock.Nanoseconds(_stream.PositionTick) < nowNs + AheadNs)
        {
            _stream.Read(_block, Math.Min(_stream.EndTick, _stream.PositionTick + _stream.Format.Clock.TicksPerSecond));
            while (_stream.Truth.TryTake(out TruthEvent truth))
            {
                if (truth.Channel is ChannelName.Ecg or ChannelName.Infrared)
                {
                    _waiting.Add(truth);
                    _body.Add(truth);
                }
            }

            while (_stream.Acquisition.TryTake(out AcquisitionEvent happened))
            {
                _body.Add(happened);
            }
        }
    }
}
