// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>Counts and sums the errors of one kind of reading in one channel.</summary>
internal sealed class ReadingTally
{
    // Errors in millionths of the unit: finer than any reading, and whole.
    private const double MicroUnit = 1e-6;
    private const long LargestMicro = 10_000_000_000;

    public ReadingTally(ChannelName channel, MarkKind kind, UsableTime usable)
    {
        Channel = channel;
        Kind = kind;
        Usable = usable;
        Coverage = new ReadingCoverage(usable);
    }

    public ChannelName Channel { get; }

    public MarkKind Kind { get; }

    /// <summary>When the signals it needs are usable.</summary>
    public UsableTime Usable { get; }

    /// <summary>How much of that time had a reading.</summary>
    public ReadingCoverage Coverage { get; }

    public ErrorSums Errors { get; } = new(MicroUnit);

    public ErrorHistogram Histogram { get; } = new(100_000, 200_000_000, MicroUnit);

    public ErrorSums LatencyMs { get; } = new(1e-6);

    /// <summary>From the reading's own time to its emission, in bins of 10 ms [ms].</summary>
    public ErrorHistogram LatencyHistogram { get; } = new(10_000_000, 20_000_000_000, 1e-6);

    /// <summary>Sum of the magnitudes of the errors [millionths of the unit].</summary>
    public Int128 AbsoluteSum { get; private set; }

    /// <summary>Sum of the magnitudes of the errors in per cent of the true value [millionths of a per cent].</summary>
    public Int128 AbsolutePercentSum { get; private set; }

    public long OffCount { get; private set; }

    public long NothingThere { get; private set; }

    public long InUnusable { get; private set; }

    public long Outside { get; private set; }

    public long CannotSay { get; private set; }

    public long? FirstEmittedNs { get; private set; }

    /// <summary>Takes the room of every bin now.</summary>
    public void Reserve()
    {
        Histogram.Reserve(isSigned: true);
        LatencyHistogram.Reserve(isSigned: false);
    }

    /// <summary>Notes a reading at its coming.</summary>
    public void NoteComing(in TimedMark mark)
    {
        FirstEmittedNs = Math.Min(FirstEmittedNs ?? long.MaxValue, mark.EmittedTimeNs);
        if (ReadingGate.CanStand(mark))
        {
            Coverage.Add(mark.EmittedTimeNs);
        }
    }

    /// <summary>Counts a reading whose truth is complete; says whether it is wrong.</summary>
    public bool Add(in TimedMark mark, Place place, ReferenceState state, double truth)
    {
        if (place == Place.Outside)
        {
            Outside++;
            return false;
        }

        if (place == Place.Unusable)
        {
            InUnusable++;
            return true;
        }

        switch (state)
        {
            case ReferenceState.CannotSay:
                CannotSay++;
                return false;
            case ReferenceState.Nothing:
                NothingThere++;
                return true;
            default:
                break;
        }

        double micro = Math.Round((mark.Value - truth) / MicroUnit);
        long error = (long)Math.Clamp(micro, -LargestMicro, LargestMicro);
        Errors.Add(error);
        Histogram.Add(error);
        LatencyMs.Add(mark.EmittedTimeNs - mark.TimeNs);
        if (mark.EmittedTimeNs >= mark.TimeNs)
        {
            LatencyHistogram.Add(mark.EmittedTimeNs - mark.TimeNs);
        }

        AbsoluteSum += Math.Abs(error);
        AbsolutePercentSum += truth > 0 ? (long)Math.Min(LargestMicro, Math.Round(100 * Math.Abs(error) / truth)) : 0;
        bool isOff = Math.Abs(error * MicroUnit) > ReadingGate.LargestGoodError(Kind, truth);
        OffCount += isOff ? 1 : 0;
        return isOff;
    }
}
