// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Matching;

/// <summary>Scored time in long pauses between detections in which a truth was missed.</summary>
public sealed class SilenceTally
{
    /// <summary>Longest pause that is still no silence [ns]: 5 s, about the longest between two beats that is still a rhythm; a choice of this project.</summary>
    public const long LongestPauseNs = 5_000_000_000;

    private readonly ScoredSpan _span;
    private long _lastNs;
    private bool _hasMissed;
    private bool _isFinished;

    internal SilenceTally(ScoredSpan span)
    {
        _span = span;
        _lastNs = span.BeginNs;
    }

    /// <summary>Time in such pauses [ns]; complete at the end of scoring.</summary>
    public long SilentNs { get; private set; }

    internal void Missed() => _hasMissed = true;

    internal void Detected(long timeNs)
    {
        long until = Math.Min(timeNs, _span.EndNs);
        if (until <= _lastNs)
        {
            return;
        }

        if (_hasMissed && until - _lastNs > LongestPauseNs)
        {
            SilentNs += until - _lastNs;
        }

        _lastNs = until;
        _hasMissed = false;
    }

    internal void Finish()
    {
        if (!_isFinished)
        {
            _isFinished = true;
            Detected(_span.EndNs);
        }
    }
}
