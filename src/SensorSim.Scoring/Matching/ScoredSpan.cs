// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Matching;

/// <summary>Which part of a record is scored: after the lead-in, before the last second, outside unusable stretches.</summary>
/// <remarks>All stretches contain their begin and not their end. The detector runs through all of them.</remarks>
public sealed class ScoredSpan
{
    private const int FirstRoom = 16;
    private readonly int _capacity;
    private long[] _begins;
    private long[] _ends;
    private int _count;
    private long _forgettableBeforeNs = long.MinValue;

    // The place of every instant from one to another, as last looked up: some thirty rows ask about the same beat.
    private long _knownFromNs;
    private long _knownUntilNs;
    private Place _known;

    /// <summary>Creates a span.</summary>
    /// <param name="beginNs">First scored instant [ns].</param>
    /// <param name="endNs">First instant no longer scored [ns]; a span that ends before it begins scores nothing.</param>
    /// <param name="capacity">Unusable stretches remembered at a time, at least 1.</param>
    public ScoredSpan(long beginNs, long endNs, int capacity = 1024)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        BeginNs = beginNs;
        EndNs = Math.Max(beginNs, endNs);
        _capacity = capacity;
        _begins = new long[Math.Min(capacity, FirstRoom)];
        _ends = new long[_begins.Length];
    }

    /// <summary>First scored instant [ns].</summary>
    public long BeginNs { get; }

    /// <summary>First instant no longer scored [ns].</summary>
    public long EndNs { get; private set; }

    /// <summary>Unusable stretches that found no room; what lies in them was scored.</summary>
    public long OverflowCount { get; private set; }

    /// <summary>The lead-in by default: 10 % of the record, at least 8 s, at most 300 s.</summary>
    /// <param name="durationNs">Length of the record [ns].</param>
    /// <remarks>EC57 leaves out 5 min (from memory); shorter ones for shorter records are this project's choice.</remarks>
    public static long DefaultLeadInNs(long durationNs) =>
        Math.Max(8_000_000_000, Math.Min(300_000_000_000, durationNs / 10));

    /// <summary>Adds an unusable stretch; must come before the events inside are closed. Overlapping ones are joined.</summary>
    /// <param name="beginNs">Begin [ns].</param>
    /// <param name="endNs">End [ns], not included; at or after the begin.</param>
    public void AddUnusable(long beginNs, long endNs)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(endNs, beginNs);
        if (beginNs == endNs)
        {
            return;
        }

        // Nothing is known any more.
        (_knownFromNs, _knownUntilNs) = (0, 0);

        // First stretch that touches or follows the new one, and first one that lies wholly after it.
        int first = Array.BinarySearch(_ends, 0, _count, beginNs);
        first = first < 0 ? ~first : first;

        int after = first;
        while (after < _count && _begins[after] <= endNs)
        {
            beginNs = Math.Min(beginNs, _begins[after]);
            endNs = Math.Max(endNs, _ends[after]);
            after++;
        }

        if (first == after)
        {
            if (_count == _capacity && !ForgetOldest(ref first))
            {
                OverflowCount++;
                return;
            }

            if (_count == _begins.Length)
            {
                int larger = Math.Min(_capacity, 2 * _count);
                Array.Resize(ref _begins, larger);
                Array.Resize(ref _ends, larger);
            }

            Move(first, first + 1);
        }
        else
        {
            Move(after, first + 1);
        }

        _begins[first] = beginNs;
        _ends[first] = endNs;
    }

    /// <summary>Allows forgetting stretches that end before a time, when room is needed.</summary>
    /// <param name="timeNs">Time before which no event is still open [ns].</param>
    public void AllowForgettingBefore(long timeNs) => _forgettableBeforeNs = Math.Max(_forgettableBeforeNs, timeNs);

    /// <summary>The record turned out shorter: nothing is scored from a time on. A later end than the present one changes nothing.</summary>
    /// <param name="endNs">First instant no longer scored [ns].</param>
    internal void EndAt(long endNs) => EndNs = Math.Max(BeginNs, Math.Min(EndNs, endNs));

    /// <summary>Takes the room of every stretch that may be remembered now.</summary>
    internal void Reserve()
    {
        Array.Resize(ref _begins, _capacity);
        Array.Resize(ref _ends, _capacity);
    }

    /// <summary>Where a point in time lies.</summary>
    /// <param name="timeNs">Time [ns].</param>
    public Place PlaceOf(long timeNs)
    {
        if (timeNs < BeginNs || timeNs >= EndNs)
        {
            return Place.Outside;
        }

        if (timeNs < _knownFromNs || timeNs >= _knownUntilNs)
        {
            LookUp(timeNs);
        }

        return _known;
    }

    /// <summary>The next instant after a time where its place may change; <see cref="long.MaxValue"/> when there is none.</summary>
    /// <param name="timeNs">Time [ns].</param>
    internal long NextEdge(long timeNs)
    {
        long next = timeNs < BeginNs ? BeginNs : timeNs < EndNs ? EndNs : long.MaxValue;
        int index = Array.BinarySearch(_begins, 0, _count, timeNs);
        int after = index < 0 ? ~index : index + 1;
        if (after < _count)
        {
            next = Math.Min(next, _begins[after]);
        }

        return after > 0 && _ends[after - 1] > timeNs ? Math.Min(next, _ends[after - 1]) : next;
    }

    private void LookUp(long timeNs)
    {
        int index = Array.BinarySearch(_begins, 0, _count, timeNs);
        index = index < 0 ? ~index - 1 : index;
        bool isUnusable = index >= 0 && timeNs < _ends[index];
        _known = isUnusable ? Place.Unusable : Place.Scored;
        _knownFromNs = isUnusable ? _begins[index] : index >= 0 ? _ends[index] : long.MinValue;
        _knownUntilNs = isUnusable ? _ends[index] : index + 1 < _count ? _begins[index + 1] : long.MaxValue;
    }

    private bool ForgetOldest(ref int first)
    {
        if (_ends[0] > _forgettableBeforeNs || first == 0)
        {
            return false;
        }

        Move(1, 0);
        first--;
        return true;
    }

    // Moves the stretches from one index on to another index.
    private void Move(int from, int to)
    {
        Array.Copy(_begins, from, _begins, to, _count - from);
        Array.Copy(_ends, from, _ends, to, _count - from);
        _count += to - from;
    }
}
