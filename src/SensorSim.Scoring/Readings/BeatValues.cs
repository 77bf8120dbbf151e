// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Readings;

/// <summary>The latest true values of one kind, one per beat.</summary>
internal sealed class BeatValues
{
    private readonly int _capacity;
    private long[] _beatIds;
    private double[] _values;
    private int _next;

    public BeatValues(int capacity, int firstRoom)
    {
        _capacity = capacity;
        _beatIds = new long[Math.Min(capacity, firstRoom)];
        _values = new double[_beatIds.Length];
    }

    /// <summary>Values seen so far, forgotten ones included.</summary>
    public long Total { get; private set; }

    /// <summary>Takes the room of the whole capacity now.</summary>
    public void Reserve() => Resize(_capacity);

    public void Add(long beatId, double value)
    {
        if (_next == _values.Length)
        {
            // The first time round there is more room to be had; after that the oldest value makes way.
            if (_next < _capacity)
            {
                Resize(Room.After(_next, _capacity));
            }
            else
            {
                _next = 0;
            }
        }

        _beatIds[_next] = beatId;
        _values[_next] = value;
        _next++;
        Total++;
    }

    /// <summary>The value of a beat, the newest one first.</summary>
    public bool TryFind(long beatId, out double value)
    {
        int known = (int)Math.Min(Total, _values.Length);
        for (int age = 0, at = _next; age < known; age++)
        {
            at = at == 0 ? _values.Length - 1 : at - 1;
            if (_beatIds[at] == beatId)
            {
                value = _values[at];
                return true;
            }
        }

        value = double.NaN;
        return false;
    }

    // Only until the first time round, when values stand in order from the first place on.
    private void Resize(int room)
    {
        Array.Resize(ref _beatIds, room);
        Array.Resize(ref _values, room);
    }
}
