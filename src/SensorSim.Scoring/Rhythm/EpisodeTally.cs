// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Rhythm;

/// <summary>Counts episodes of true arrhythmia that were flagged, and flags that stand in one.</summary>
/// <remarks>
/// An episode of truth lasts while it is irregular without a break and counts from 30 s of scored time on (the length from which atrial fibrillation is
/// called so by the guidelines of cardiology, from memory). It is found when the flag stands at any time in it. A flag counts from the first scored and
/// judged time in it on; it is right when any of this is irregular.
/// </remarks>
internal sealed class EpisodeTally
{
    public const long ShortestNs = 30_000_000_000;

    private long _episodeNs;
    private long _episodeBeginNs;
    private long? _foundNs;
    private bool _isInEpisode;
    private bool _isFlagged;
    private long _flagNs;
    private bool _isFlagRight;

    public long EpisodeCount { get; private set; }

    public long FoundCount { get; private set; }

    public long FlagCount { get; private set; }

    public long RightFlagCount { get; private set; }

    /// <summary>From the begin of an episode to its flag, of those found [ms].</summary>
    public ErrorSums DelayMs { get; } = new(1e-6);

    public void Add(long beginNs, long scoredNs, bool? isIrregular, bool isFlagged)
    {
        if (isIrregular != true)
        {
            EndEpisode();
        }

        if (!isFlagged)
        {
            EndFlag();
        }

        if (isIrregular == true)
        {
            if (!_isInEpisode)
            {
                (_isInEpisode, _episodeBeginNs, _episodeNs, _foundNs) = (true, beginNs, 0, null);
            }

            _episodeNs += scoredNs;
            if (isFlagged && scoredNs > 0)
            {
                _foundNs ??= beginNs;
            }
        }

        if (isFlagged)
        {
            _isFlagged = true;
            _flagNs += isIrregular is null ? 0 : scoredNs;
            _isFlagRight |= isIrregular == true && scoredNs > 0;
        }
    }

    public void Finish()
    {
        EndEpisode();
        EndFlag();
    }

    private void EndEpisode()
    {
        if (_isInEpisode && _episodeNs >= ShortestNs)
        {
            EpisodeCount++;
            if (_foundNs is long found)
            {
                FoundCount++;
                DelayMs.Add(found - _episodeBeginNs);
            }
        }

        _isInEpisode = false;
    }

    private void EndFlag()
    {
        if (_isFlagged && _flagNs > 0)
        {
            FlagCount++;
            RightFlagCount += _isFlagRight ? 1 : 0;
        }

        (_isFlagged, _flagNs, _isFlagRight) = (false, 0, false);
    }
}
