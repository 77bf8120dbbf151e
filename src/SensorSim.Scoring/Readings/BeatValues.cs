// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Readings;

/// <summary>The latest true values of one kind, one per beat.</summary>
internal sealed class BeatValues
{
    private readonly long[] _beatIds;
    private readonly double[] _values;
    private int _next;

    public BeatValues(int capacity)
    {
        _beatIds = new long[capacity];
        _values = new double[capacity];
    }

    /// <summary>Values seen so far, forgotten ones included.</summary>
    public long Total { get; private set; }

    public void Add(long beatId, double value)
    {
        _beatIds[_next] = beatId;
        _values[_next] = value;
        _next = _next + 1 == _values.Length ? 0 : _next + 1;
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
}
