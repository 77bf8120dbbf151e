// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;

namespace SensorSim.Scoring.Beats;

/// <summary>When a detector itself declares, by the gate of a channel, that it does not work there.</summary>
/// <remarks>
/// The published protocol (ANSI/AAMI EC57, from memory) calls this shutdown: beats inside count as missed all the same, and are listed beside. A gate that
/// was never told counts as open. The latest 256 stretches are remembered.
/// </remarks>
internal sealed class Shutdowns
{
    private const int Capacity = 256;
    private readonly ScoredSpan _span;
    private readonly (long Begin, long End)[] _stretches = new (long, long)[Capacity];
    private long _total;
    private int _count;
    private long? _shutSince;

    public Shutdowns(ScoredSpan span) => _span = span;

    /// <summary>Whether the gate was ever told.</summary>
    public bool IsDeclared { get; private set; }

    /// <summary>Time shut, between lead-in and last second [ns]; a gate that is still shut counts to the end.</summary>
    public long TotalNs => _total + (_shutSince is long since ? Overlap(since, long.MaxValue) : 0);

    public void Shut(long timeNs)
    {
        IsDeclared = true;
        _shutSince ??= timeNs;
    }

    public void Open(long timeNs)
    {
        IsDeclared = true;
        if (_shutSince is long since && timeNs > since)
        {
            _stretches[_count % Capacity] = (since, timeNs);
            _count++;
            _total += Overlap(since, timeNs);
        }

        _shutSince = null;
    }

    public bool IsShut(long timeNs)
    {
        if (timeNs >= _shutSince)
        {
            return true;
        }

        for (int i = _count - 1; i >= Math.Max(0, _count - Capacity); i--)
        {
            (long begin, long end) = _stretches[i % Capacity];
            if (timeNs >= begin)
            {
                return timeNs < end;
            }
        }

        return false;
    }

    private long Overlap(long beginNs, long endNs) => Math.Max(0, Math.Min(endNs, _span.EndNs) - Math.Max(beginNs, _span.BeginNs));
}
