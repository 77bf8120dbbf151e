// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Readings;

/// <summary>What truth says about a reading.</summary>
internal enum ReferenceState
{
    /// <summary>There is a true value.</summary>
    Known,

    /// <summary>Truth covers the time, and there is nothing to read: no beat, no pulse.</summary>
    Nothing,

    /// <summary>Truth cannot judge the reading: no such truth in the record, an optional or ambiguous beat, or already forgotten.</summary>
    CannotSay,
}

/// <summary>Finds the true value that belongs to a reading: the same statistic over the same true beats.</summary>
internal sealed class ReadingReference
{
    /// <summary>A detector's first and last beat may be off by this; half the matching window of beats.</summary>
    public const long MarginNs = 75_000_000;

    // Window of a spot arrival that states none; the definition of the kind.
    private const long SpotWindowNs = 30_000_000_000;

    // Without a window: the latest true beat may be this old, about the longest pause that is still a rhythm; a breath this (4 a minute).
    private const long LongestPauseNs = ReadingCoverage.ValidNs;
    private const long LongestBreathNs = 15_000_000_000;

    private readonly ChannelTruth _truth;
    private readonly long _windowNs;

    public ReadingReference(ChannelTruth truth, long windowNs)
    {
        _truth = truth;
        _windowNs = windowNs;
    }

    /// <summary>The true value of a reading of any scored kind.</summary>
    /// <param name="mark">The reading.</param>
    /// <param name="truth">Receives the value in the kind's unit; NaN when there is none.</param>
    public ReferenceState Find(in TimedMark mark, out double truth) => mark.Kind switch
    {
        MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => HeartRateBpm(mark, out truth),
        MarkKind.ArrivalTimeMs => ArrivalMs(mark, out truth),
        MarkKind.ArrivalSpotMs => Window(_truth.Arrivals(mark.Channel), mark, SpotWindowNs, isMedian: true, out truth),
        MarkKind.Spo2Percent => Window(_truth.Saturation, mark, null, isMedian: false, out truth),
        MarkKind.SystolicMmhg => Window(_truth.Systolic, mark, null, isMedian: false, out truth),
        MarkKind.DiastolicMmhg => Window(_truth.Diastolic, mark, null, isMedian: false, out truth),
        MarkKind.PerfusionIndexPercent => Window(_truth.Perfusion(mark.Channel), mark, null, isMedian: false, out truth),
        _ => Window(_truth.Respiration, mark, null, isMedian: false, out truth),
    };

    /// <summary>Mean heart rate over the true beats of the window: 60 (n − 1) / (last − first), as the reading's channel shows them.</summary>
    private ReferenceState HeartRateBpm(in TimedMark mark, out double rateBpm)
    {
        rateBpm = double.NaN;
        TruthBeats beats = _truth.BeatsOf(mark.Channel);
        if (beats.Total == 0 || (mark.WindowBeginNs ?? (mark.TimeNs - LongestPauseNs)) - MarginNs < beats.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        // Without a window it is the rate of this moment: of the latest two beats, unless the heart stands still.
        int last = beats.FirstAtOrAfter(mark.TimeNs + MarginNs + 1) - 1;
        int first = mark.WindowBeginNs is long begin ? beats.FirstAtOrAfter(begin - MarginNs) : Math.Max(0, last - 1);
        if (mark.WindowBeginNs is null && last >= 0 && mark.TimeNs - beats[last].TimeNs > LongestPauseNs)
        {
            return ReferenceState.Nothing;
        }

        for (int i = first; i <= last; i++)
        {
            if ((beats[i].Flags & TruthFlags.Optional) != 0)
            {
                return ReferenceState.CannotSay;
            }
        }

        if (last <= first || beats[last].TimeNs == beats[first].TimeNs)
        {
            return ReferenceState.Nothing;
        }

        rateBpm = 60e9 * (last - first) / (beats[last].TimeNs - beats[first].TimeNs);
        return ReferenceState.Known;
    }

    /// <summary>Arrival time of the true beat whose R peak is closest to the R peak that the reading names.</summary>
    private ReferenceState ArrivalMs(in TimedMark mark, out double arrivalMs)
    {
        arrivalMs = double.NaN;
        BeatValues? values = _truth.ArrivalOfBeat(mark.Channel);

        // Those given for the beat as a whole.
        BeatValues? fallback = _truth.ArrivalOfBeat(ChannelName.Ecg);
        bool hasTruth = values is { Total: > 0 } || fallback is { Total: > 0 };
        if (hasTruth && mark.PairedTimeNs is null)
        {
            // It names no beat, so it is one of the latest before it.
            return Latest(_truth.Arrivals(mark.Channel), mark, LongestPauseNs, out arrivalMs);
        }

        if (!hasTruth || mark.PairedTimeNs is not long paired || paired - _windowNs < _truth.Beats.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        int beat = _truth.Beats.Closest(paired, _windowNs);
        if (beat < 0)
        {
            return ReferenceState.Nothing;
        }

        if (_truth.Beats[beat].Flags != TruthFlags.None)
        {
            return ReferenceState.CannotSay;
        }

        long id = _truth.Beats[beat].BeatId;
        return (values is not null && values.TryFind(id, out arrivalMs)) || (fallback is not null && fallback.TryFind(id, out arrivalMs))
            ? ReferenceState.Known
            : ReferenceState.Nothing;
    }

    /// <summary>Mean or median of the true values whose time lies in the reading's window.</summary>
    private static ReferenceState Window(TimedValues? values, in TimedMark mark, long? defaultNs, bool isMedian, out double truth)
    {
        truth = double.NaN;
        if (mark.WindowBeginNs is null && defaultNs is null)
        {
            return Latest(values, mark, mark.Kind == MarkKind.RespirationRateBpm ? LongestBreathNs : LongestPauseNs, out truth);
        }

        if (values is not { Total: > 0 } || (mark.WindowBeginNs ?? (mark.TimeNs - defaultNs)) is not long begin || begin - MarginNs < values.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        bool isThere = isMedian
            ? values.TryMedian(begin - MarginNs, mark.TimeNs + MarginNs, out truth)
            : values.TryMean(begin - MarginNs, mark.TimeNs + MarginNs, out truth);
        return isThere ? ReferenceState.Known : ReferenceState.Nothing;
    }

    /// <summary>The latest true value before a reading that states no window.</summary>
    private static ReferenceState Latest(TimedValues? values, in TimedMark mark, long oldestNs, out double truth)
    {
        truth = double.NaN;
        if (values is not { Total: > 0 } || mark.TimeNs - oldestNs < values.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        return values.TryLatest(mark.TimeNs + MarginNs, oldestNs, out truth) ? ReferenceState.Known : ReferenceState.Nothing;
    }
}
