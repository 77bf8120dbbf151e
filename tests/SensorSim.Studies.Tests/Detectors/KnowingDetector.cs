// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Studies.Tests.Detectors;

/// <summary>Knows the truth of a scenario beforehand (from a second stream of the same identity) and answers with it, as well as marks can.</summary>
internal sealed class KnowingDetector : IDetector
{
    private readonly List<TruthEvent> _truth = [];
    private readonly List<Mark> _held = [];
    private readonly IReadOnlyList<ChannelClock> _clocks;
    private StreamFormat _format = null!;
    private int _next;
    private long _seenTick;

    public KnowingDetector(Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        _clocks = stream.Clocks;
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + block.MaximumTicks));
            while (stream.Truth.TryTake(out TruthEvent row))
            {
                _truth.Add(row);
            }
        }

        _truth.Sort((a, b) => a.TimeNs.CompareTo(b.TimeNs));
    }

    /// <summary>Added to every time [ms], drawn by the number of the beat.</summary>
    public Func<long, double> ErrorMs { get; init; } = _ => 0;

    /// <summary>Whether a beat is answered.</summary>
    public Func<long, bool> Answers { get; init; } = _ => true;

    /// <summary>Channels whose feet are answered.</summary>
    public ChannelName[] FeetOf { get; init; } = [ChannelName.Infrared];

    public string Name => "knowing 1.0";

    public void Start(StreamFormat format)
    {
        _format = format;
        _next = 0;
        _held.Clear();
        _seenTick = 0;
    }

    public void Process(SampleBlock block, DetectorOutput output)
    {
        _seenTick = block.EndTick;
        Answer(_format.Clock.Nanoseconds(_seenTick), output);
    }

    public void Flush(DetectorOutput output)
    {
        Answer(long.MaxValue, output);

        // What shows after the end of the record shows to nobody.
        _held.Clear();
    }

    public void Dispose()
    {
        // Nothing is held.
    }

    private void Answer(long untilNs, DetectorOutput output)
    {
        for (; _next < _truth.Count && _truth[_next].TimeNs < untilNs; _next++)
        {
            TruthEvent row = _truth[_next];
            bool isFoot = row.Kind is MarkKind.PulseFootTangent or MarkKind.PatMs && FeetOf.Contains(row.Channel);
            if (Answers(row.BeatId) && (isFoot || row.Kind is MarkKind.RPeak or MarkKind.HeartRateBpm))
            {
                Hold(ToMark(row));
            }
        }

        // A mark waits for the samples that it speaks of: they come later than the body by delays, clocks and errors.
        foreach (Mark mark in _held.Where(IsSeen))
        {
            output.Marks.Add(mark with { EmittedTick = _seenTick });
        }

        _held.RemoveAll(IsSeen);
    }

    // What began before the first sample no detector has seen.
    private void Hold(Mark mark)
    {
        if (mark.Sample >= mark.WindowSamples && (mark.PairedChannel < 0 || mark.PairedSample >= 0))
        {
            _held.Add(mark);
        }
    }

    private bool IsSeen(Mark mark) =>
        mark.Sample < _format.FirstSampleAtOrAfter(mark.Channel, _seenTick)
        && (mark.PairedChannel < 0 || mark.PairedSample < _format.FirstSampleAtOrAfter(mark.PairedChannel, _seenTick));

    private Mark ToMark(in TruthEvent row)
    {
        long errorNs = (long)Math.Round(ErrorMs(row.BeatId) * 1e6);
        int channel = _format.IndexOf(row.Channel);
        long position = Position256(channel, row.TimeNs + errorNs);
        var mark = new Mark
        {
            Channel = channel,
            Kind = row.Kind == MarkKind.PatMs ? MarkKind.ArrivalTimeMs : row.Kind,
            Sample = position >> 8,
            Fraction256 = (byte)(position & 255),
            Quality = 200,
        };
        if (row.Kind is not (MarkKind.PatMs or MarkKind.HeartRateBpm))
        {
            return mark;
        }

        mark = mark with { HasValue = true, ValueMilli = (int)Math.Round(row.Value * 1e3) };
        if (row.Kind == MarkKind.HeartRateBpm)
        {
            // The window reaches back to the R peak before.
            return mark with { WindowSamples = (long)Math.Round(60 / row.Value * _format.Channels[channel].RateHz) };
        }

        int ecg = _format.IndexOf(ChannelName.Ecg);
        long r = Position256(ecg, row.TimeNs - (long)Math.Round(row.Value * 1e6) + errorNs);

        // What it reads off its two devices: the difference of their own times, each less its declared delay. A detector cannot know better.
        double arrivalMs = OwnMs(channel, row.TimeNs) - OwnMs(ecg, row.TimeNs - (row.Value * 1e6));
        mark = mark with { ValueMilli = (int)Math.Round(arrivalMs * 1e3) };
        return mark with { PairedChannel = ecg, PairedSample = r >> 8, PairedFraction256 = (byte)(r & 255) };
    }

    private double OwnMs(int channel, double bodyNs) => ((bodyNs * (1 + (_clocks[channel].Ppm * 1e-6))) + _clocks[channel].OffsetNs) / 1e6;

    // Body time to the nearest 1/256 of a sample in device time.
    private long Position256(int channel, long bodyNs)
    {
        ChannelFormat format = _format.Channels[channel];
        double deviceNs = (bodyNs * (1 + (_clocks[channel].Ppm * 1e-6))) + _clocks[channel].OffsetNs + format.DeclaredDelayNs;
        double samples = deviceNs * format.RateHz / TickClock.NanosecondsPerSecond;
        return (long)Math.Round(samples * 256);
    }
}
