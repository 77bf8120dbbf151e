// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Marks;

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

    private readonly TruthBeats _beats;
    private readonly long _windowNs;

    public ReadingReference(TruthBeats beats, long windowNs)
    {
        _beats = beats;
        _windowNs = windowNs;
    }

    /// <summary>Mean heart rate over the true beats of the window: 60 (n − 1) / (last R − first R).</summary>
    public ReferenceState HeartRateBpm(in TimedMark mark, out double rateBpm)
    {
        rateBpm = double.NaN;
        if (_beats.Total == 0 || mark.WindowBeginNs is not long begin || begin - MarginNs < _beats.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        int first = _beats.FirstAtOrAfter(begin - MarginNs);
        int last = _beats.FirstAtOrAfter(mark.TimeNs + MarginNs + 1) - 1;
        for (int i = first; i <= last; i++)
        {
            if ((_beats[i].Flags & TruthFlags.Optional) != 0)
            {
                return ReferenceState.CannotSay;
            }
        }

        if (last <= first || _beats[last].TimeNs == _beats[first].TimeNs)
        {
            return ReferenceState.Nothing;
        }

        rateBpm = 60e9 * (last - first) / (_beats[last].TimeNs - _beats[first].TimeNs);
        return ReferenceState.Known;
    }

    /// <summary>Arrival time of the true beat whose R peak is closest to the R peak that the reading names.</summary>
    /// <param name="mark">The reading.</param>
    /// <param name="values">True arrival times of the reading's channel.</param>
    /// <param name="fallback">Those given for the beat as a whole (on the ECG channel); null when there are none.</param>
    /// <param name="arrivalMs">Receives the time [ms].</param>
    public ReferenceState ArrivalMs(in TimedMark mark, BeatValues? values, BeatValues? fallback, out double arrivalMs)
    {
        arrivalMs = double.NaN;
        bool hasTruth = values is { Total: > 0 } || fallback is { Total: > 0 };
        if (!hasTruth || mark.PairedTimeNs is not long paired || paired - _windowNs < _beats.KnownFromNs)
        {
            return ReferenceState.CannotSay;
        }

        int beat = _beats.Closest(paired, _windowNs);
        if (beat < 0)
        {
            return ReferenceState.Nothing;
        }

        if (_beats[beat].Flags != TruthFlags.None)
        {
            return ReferenceState.CannotSay;
        }

        long id = _beats[beat].BeatId;
        return (values is not null && values.TryFind(id, out arrivalMs)) || (fallback is not null && fallback.TryFind(id, out arrivalMs))
            ? ReferenceState.Known
            : ReferenceState.Nothing;
    }
}
