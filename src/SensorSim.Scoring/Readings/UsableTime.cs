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

    /// <summary>Counts everything before a time, where stretches are complete.</summary>
    public void Count(long upToNs)
    {
        TotalNs += LengthNs(_countedUpToNs, upToNs);
        _countedUpToNs = Math.Max(_countedUpToNs, upToNs);
    }
}
