// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Examples.Threshold;

/// <summary>
/// A small R-peak detector: the difference of two samples that lie 12 ms apart, against half of a running peak, with a refractory time.
/// Integers only. The same algorithm as docs/examples/c-detector, step by step, so both give the same marks.
/// </summary>
public sealed class ThresholdDetector : IDetector, IDetectorConstants
{
    private const int Ring = 64;

    private readonly int[] _codes = new int[Ring]; // The latest codes, by sample index modulo Ring.
    private int _refractoryMs = 250;
    private int _thresholdPercent = 50;
    private int _channel;
    private int _rateHz;
    private long _ticksPerSample;
    private int _lag; // Samples between the two that are compared.
    private long _next; // Index of the sample that follows without a gap; -1: none yet.
    private long _seen; // Samples since the start or the latest gap.
    private long _peak; // Running peak of the steepness, in 1/16.
    private long _last; // Sample of the latest mark.
    private long _best; // Place of the steepest rise while above the threshold; -1: below.
    private int _steepest;
    private long _endTick; // End of the latest block.

    /// <inheritdoc/>
    public string Name => "threshold 1.0";

    /// <inheritdoc/>
    public IReadOnlyList<NumberKey> Constants { get; } =
    [
        new NumberKey
        {
            Name = "detector.refractory_ms", Unit = "ms", Meaning = "Shortest time between two beats.", Source = "threshold 1.0",
            Minimum = 100, Maximum = 600, Default = 250, IsWhole = true,
        },
        new NumberKey
        {
            Name = "detector.threshold_percent", Unit = "%", Meaning = "Steepness of a beat, of the running peak.", Source = "threshold 1.0",
            Minimum = 10, Maximum = 90, Default = 50, IsWhole = true,
        },
    ];

    /// <inheritdoc/>
    public void SetConstant(string name, double value)
    {
        if (name == "detector.refractory_ms")
        {
            _refractoryMs = (int)value;
        }
        else
        {
            _thresholdPercent = (int)value;
        }
    }

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _channel = format.IndexOf(ChannelName.Ecg);
        if (_channel < 0)
        {
            throw new NotSupportedException("The stream has no ecg; threshold needs it.");
        }

        _rateHz = format.Channels[_channel].RateHz;
        if (_rateHz is < 100 or > 2000)
        {
            throw new NotSupportedException($"The ECG has {_rateHz} Hz; threshold works from 100 to 2000 Hz.");
        }

        _ticksPerSample = format.TicksPerSample(_channel);
        _lag = Math.Max(1, _rateHz * 12 / 1000);
        _next = -1;
        _seen = 0;
        _peak = 0;
        _last = -1000000;
        _best = -1;
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        ChannelBlock channel = block.Channels[_channel];
        _endTick = block.EndTick;
        foreach (SampleRun run in channel.Runs)
        {
            for (int i = 0; i < run.Count; i++)
            {
                Take(run.FirstIndex + i, channel.Codes[run.Offset + i], output);
            }
        }
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (_best >= 0)
        {
            Give(_endTick, output);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // Nothing is held.
    }

    private void Take(long index, int code, DetectorOutput output)
    {
        if (index != _next)
        {
            _seen = 0;
            _best = -1;
        }

        _next = index + 1;
        _codes[index % Ring] = code;
        _seen++;
        if (_seen <= _lag)
        {
            return;
        }

        int steep = Math.Abs(code - _codes[(index - _lag) % Ring]);

        // The running peak follows at once and falls by 1/1024 of itself a sample.
        _peak -= _peak >> 10;
        _peak = Math.Max(_peak, steep * 16L);
        bool isAbove = steep * 1600L > _peak * _thresholdPercent;
        bool isFree = (index - _last) * 1000 >= (long)_refractoryMs * _rateHz;
        if (_best < 0 && isAbove && isFree && _seen > _rateHz)
        {
            _best = index;
            _steepest = steep;
        }
        else if (_best >= 0 && steep > _steepest)
        {
            _best = index;
            _steepest = steep;
        }
        else if (_best >= 0 && (index - _best) * 1000 >= 60L * _rateHz)
        {
            Give(index * _ticksPerSample, output);
        }
    }

    private void Give(long emittedTick, DetectorOutput output)
    {
        // The steepest rise ends at the peak, as good as this detector knows.
        output.Marks.Add(new Mark { Channel = _channel, Kind = MarkKind.RPeak, Sample = _best, Quality = 255, EmittedTick = emittedTick });
        _last = _best;
        _best = -1;
    }
}
