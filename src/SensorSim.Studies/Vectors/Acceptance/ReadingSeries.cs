// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>The true beats that a reading is a statistic of, and which averages over them a device may give.</summary>
/// <remarks>
/// A device's window is not known beforehand. Right is what is the statistic of some sensible window: one over the least to the most beats that are
/// usual for the kind (or that the plan names), ending at the latest beat or up to <see cref="LateBeats"/> before.
/// </remarks>
internal sealed class ReadingSeries
{
    /// <summary>How many beats before the latest one a window may end.</summary>
    public const int LateBeats = 2;

    private readonly IReadOnlyList<TruthEvent> _beats;
    private readonly HashSet<long> _doubtful = [];
    private readonly Statistic _statistic;
    private readonly int _least;
    private readonly int _most;
    private readonly double[] _sums;

    public ReadingSeries(PlannedRequirement requirement, CaseTruth truth)
    {
        MarkKind kind = requirement.Kind;
        ChannelName? channel = requirement.Channel;
        _statistic = kind switch
        {
            MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => Statistic.Rate,
            MarkKind.ArrivalSpotMs => Statistic.Median,
            _ => Statistic.Mean,
        };
        _beats = kind switch
        {
            MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => truth.Beats(channel),
            MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs => Arrivals(truth, channel),
            MarkKind.PerfusionIndexPercent => truth.Of(kind, channel),
            MarkKind.RrMeanMs => truth.Of(MarkKind.RrMs, null),

            // One body, one saturation, one pressure: whichever channel tells it.
            _ => truth.Of(kind, null),
        };
        _beats = [.. _beats.Where(b => _statistic == Statistic.Rate || double.IsFinite(b.Value))];
        (int least, int most) = Usual(kind);
        _least = requirement.BeatsMin ?? Math.Min(least, requirement.BeatsMax ?? least);
        _most = Math.Max(_least, requirement.BeatsMax ?? most);
        _sums = Sums();
        FindDoubtful(truth, kind);
    }

    private enum Statistic
    {
        Rate,
        Mean,
        Median,
    }

    /// <summary>The beats, in order of time.</summary>
    public IReadOnlyList<TruthEvent> Beats => _beats;

    /// <summary>Fewest and most beats (rates: intervals) that are usual for a kind.</summary>
    /// <remarks>Common practice of monitors and oximeters, from memory: rates over 2 to 16 intervals, means over up to 16 beats. A spot arrival is the median of at least 20 pairs in 30 s.</remarks>
    public static (int Least, int Most) Usual(MarkKind kind) => kind switch
    {
        MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => (2, 16),
        MarkKind.ArrivalTimeMs => (1, 1),
        MarkKind.ArrivalSpotMs => (20, 48),
        MarkKind.RrMeanMs => (20, 120),
        _ => (1, 16),
    };

    /// <summary>Least and greatest value of the sensible windows once a beat has come; false when there is none, or a beat in them may or may not count.</summary>
    /// <param name="latest">Index of the latest beat.</param>
    /// <param name="low">Receives the least.</param>
    /// <param name="high">Receives the greatest.</param>
    public bool TryRange(int latest, out double low, out double high)
    {
        low = double.PositiveInfinity;
        high = double.NegativeInfinity;
        for (int end = latest; end >= Math.Max(0, latest - LateBeats); end--)
        {
            for (int count = _least; count <= _most; count++)
            {
                int first = _statistic == Statistic.Rate ? end - count : end - count + 1;
                if (first < 0)
                {
                    break;
                }

                if (_doubtful.Count > 0 && IsDoubtful(first, end))
                {
                    return false;
                }

                double value = Value(first, end);
                low = Math.Min(low, value);
                high = Math.Max(high, value);
            }
        }

        return low <= high;
    }

    private double Value(int first, int last) => _statistic switch
    {
        Statistic.Rate => 60e9 * (last - first) / Math.Max(1, _beats[last].TimeNs - _beats[first].TimeNs),
        Statistic.Mean => (_sums[last + 1] - _sums[first]) / (last - first + 1),
        _ => Median(first, last),
    };

    private double Median(int first, int last)
    {
        double[] sorted = [.. Enumerable.Range(first, last - first + 1).Select(i => _beats[i].Value).Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private double[] Sums()
    {
        var sums = new double[_beats.Count + 1];
        for (int i = 0; i < _beats.Count && _statistic == Statistic.Mean; i++)
        {
            sums[i + 1] = sums[i] + _beats[i].Value;
        }

        return sums;
    }

    private bool IsDoubtful(int first, int last)
    {
        for (int i = first; i <= last; i++)
        {
            if (_doubtful.Contains(_beats[i].BeatId))
            {
                return true;
            }
        }

        return false;
    }

    // A rate that may or may not count a beat has no one true value; nor has an arrival whose R peak is one of two.
    private void FindDoubtful(CaseTruth truth, MarkKind kind)
    {
        if (_statistic == Statistic.Rate)
        {
            _doubtful.UnionWith(_beats.Where(b => (b.Flags & TruthFlags.Optional) != 0).Select(b => b.BeatId));
        }
        else if (kind is MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs)
        {
            _doubtful.UnionWith(truth.Of(MarkKind.RPeak, ChannelName.Ecg).Where(b => b.Flags != TruthFlags.None).Select(b => b.BeatId));
        }
    }

    private static IReadOnlyList<TruthEvent> Arrivals(CaseTruth truth, ChannelName? channel)
    {
        IReadOnlyList<TruthEvent> own = truth.Of(MarkKind.PatMs, channel);
        return own.Count > 0 ? own : truth.Of(MarkKind.PatMs, ChannelName.Ecg);
    }
}
