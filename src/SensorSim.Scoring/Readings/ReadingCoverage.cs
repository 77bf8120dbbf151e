// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Readings;

/// <summary>For how much of the usable time a reading stood there.</summary>
/// <remarks>
/// A reading stands from its emission on for <see cref="ValidNs"/>, until the next one replaces it, or until its gate shuts. Time is counted
/// behind the horizon, where usable stretches and readings are complete.
/// </remarks>
internal sealed class ReadingCoverage
{
    /// <summary>How long a reading stands [ns]: 5 s, about the longest pause between two beats that is still a rhythm; a choice of this project.</summary>
    public const long ValidNs = 5_000_000_000;

    private const int Capacity = 64;
    private readonly UsableTime _usable;
    private readonly long[] _begins = new long[Capacity];
    private readonly long[] _ends = new long[Capacity];
    private int _count;
    private long _countedUpToNs = long.MinValue;

    public ReadingCoverage(UsableTime usable) => _usable = usable;

    /// <summary>Usable time with a reading [ns].</summary>
    public long CoveredNs { get; private set; }

    /// <summary>Unusable time with a reading [ns].</summary>
    public long UnusableCoveredNs { get; private set; }

    /// <summary>Notes a reading; in order of emission.</summary>
    public void Add(long emittedNs)
    {
        if (_count > 0 && emittedNs <= _ends[_count - 1])
        {
            _ends[_count - 1] = Math.Max(_ends[_count - 1], emittedNs + ValidNs);
            return;
        }

        if (_count == Capacity)
        {
            // Readings that come and go 64 times within the holding time: the oldest is counted at once.
            Count(_ends[0]);
        }

        _begins[_count] = emittedNs;
        _ends[_count] = emittedNs + ValidNs;
        _count++;
    }

    /// <summary>The gate has shut: no reading stands any more.</summary>
    public void Shut(long timeNs)
    {
        if (_count > 0)
        {
            _ends[_count - 1] = Math.Max(_begins[_count - 1], Math.Min(_ends[_count - 1], timeNs));
        }
    }

    /// <summary>Counts everything before a time.</summary>
    public void Count(long upToNs)
    {
        int gone = 0;
        for (int i = 0; i < _count; i++)
        {
            long begin = Math.Max(_begins[i], _countedUpToNs);
            long end = Math.Min(_ends[i], upToNs);
            long usable = _usable.LengthNs(begin, end);
            CoveredNs += usable;
            UnusableCoveredNs += _usable.ScoredLengthNs(begin, end) - usable;
            gone += _ends[i] <= upToNs ? 1 : 0;
        }

        _countedUpToNs = Math.Max(_countedUpToNs, upToNs);
        Array.Copy(_begins, gone, _begins, 0, _count - gone);
        Array.Copy(_ends, gone, _ends, 0, _count - gone);
        _count -= gone;
    }
}
