// SPDX-License-Identifier: MIT
using SensorSim.Links.Lines;

namespace SensorSim.Links.Damage;

/// <summary>Bytes in order, each stretch of them with the time from which it may be taken. Fixed size, allocates nothing after it was made.</summary>
internal sealed class TimedBytes
{
    private readonly ByteRing _bytes;
    private readonly double[] _dueMs;
    private readonly int[] _counts;
    private int _first;
    private int _stretches;

    /// <summary>Creates an empty store.</summary>
    /// <param name="capacity">Most bytes.</param>
    /// <param name="stretches">Most stretches.</param>
    public TimedBytes(int capacity, int stretches)
    {
        _bytes = new ByteRing(capacity);
        _dueMs = new double[stretches];
        _counts = new int[stretches];
    }

    /// <summary>Bytes that still fit.</summary>
    public int Free => _bytes.Free;

    /// <summary>Stretches that still fit.</summary>
    public int FreeStretches => _dueMs.Length - _stretches;

    /// <summary>When the first stretch is due [ms]; infinite when there is none.</summary>
    public double NextDueMs => _stretches > 0 ? _dueMs[_first] : double.PositiveInfinity;

    /// <summary>Adds bytes.</summary>
    /// <param name="bytes">They and one more stretch must fit.</param>
    /// <param name="dueMs">When they may be taken [ms]; not before those added earlier.</param>
    public void Put(ReadOnlySpan<byte> bytes, double dueMs)
    {
        if (bytes.IsEmpty)
        {
            return;
        }

        _bytes.Put(bytes);
        int last = (_first + _stretches - 1 + _dueMs.Length) % _dueMs.Length;
        if (_stretches > 0 && _dueMs[last] >= dueMs)
        {
            _counts[last] += bytes.Length;
            return;
        }

        int next = (_first + _stretches) % _dueMs.Length;
        _dueMs[next] = dueMs;
        _counts[next] = bytes.Length;
        _stretches++;
    }

    /// <summary>Takes bytes that are due.</summary>
    /// <param name="into">Receives them.</param>
    /// <param name="nowMs">The time [ms].</param>
    /// <returns>How many.</returns>
    public int Take(Span<byte> into, double nowMs)
    {
        int taken = 0;
        while (taken < into.Length && NextDueMs <= nowMs)
        {
            int count = Math.Min(_counts[_first], into.Length - taken);
            taken += _bytes.Take(into.Slice(taken, count));
            _counts[_first] -= count;
            if (_counts[_first] == 0)
            {
                _first = (_first + 1) % _dueMs.Length;
                _stretches--;
            }
        }

        return taken;
    }
}
