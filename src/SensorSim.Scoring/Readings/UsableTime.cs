// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;

namespace SensorSim.Scoring.Readings;

/// <summary>When the signals that a reading needs are usable: one span, two that both have to be, or several of which one is enough.</summary>
internal sealed class UsableTime
{
    private readonly ScoredSpan[] _spans;
    private readonly bool _isAnyEnough;
    private long _countedUpToNs = long.MinValue;

    public UsableTime(ScoredSpan[] spans, bool isAnyEnough)
    {
        _spans = spans;
        _isAnyEnough = isAnyEnough;
    }

    /// <summary>Scored and usable time counted so far [ns].</summary>
    public long TotalNs { get; private set; }

    /// <summary>Scored and unusable time counted so far [ns].</summary>
    public long UnusableNs { get; private set; }

    public bool IsUsable(long timeNs)
    {
        foreach (ScoredSpan span in _spans)
        {
            if (span.PlaceOf(timeNs) == Place.Scored == _isAnyEnough)
            {
                return _isAnyEnough;
            }
        }

        return !_isAnyEnough;
    }

    /// <summary>Scored and usable time from one instant to another [ns].</summary>
    public long LengthNs(long beginNs, long endNs)
    {
        long sum = 0;
        long at = beginNs;
        while (at < endNs)
        {
            long next = endNs;
            foreach (ScoredSpan span in _spans)
            {
                next = Math.Min(next, span.NextEdge(at));
            }

            sum += IsUsable(at) ? next - at : 0;
            at = next;
        }

        return sum;
    }

    /// <summary>Scored time, usable or not, from one instant to another [ns].</summary>
    public long ScoredLengthNs(long beginNs, long endNs)
    {
        if (_spans.Length == 0)
        {
            return 0;
        }

        long first = _spans[0].BeginNs;
        long last = _spans[0].EndNs;
        foreach (ScoredSpan span in _spans)
        {
            first = _isAnyEnough ? Math.Min(first, span.BeginNs) : Math.Max(first, span.BeginNs);
            last = _isAnyEnough ? Math.Max(last, span.EndNs) : Math.Min(last, span.EndNs);
        }

        return Math.Max(0, Math.Min(endNs, last) - Math.Max(beginNs, first));
    }

    /// <summary>Counts everything before a time, where stretches are complete.</summary>
    public void Count(long upToNs)
    {
        if (upToNs <= _countedUpToNs)
        {
            return;
        }

        long usable = LengthNs(_countedUpToNs, upToNs);
        TotalNs += usable;
        UnusableNs += ScoredLengthNs(_countedUpToNs, upToNs) - usable;
        _countedUpToNs = upToNs;
    }
}
