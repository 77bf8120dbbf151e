// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>One bit for each of the latest 256 working samples: the sensor did not give it, or gave it while it settled.</summary>
/// <remarks>
/// Input: one bit a sample.
/// Product: none.
/// Accumulator: none.
/// Worst case: none.
/// Output: bits; they cost something only for the 256 samples after the last set one.
/// </remarks>
public struct SampleMarks
{
    private const int Mask = Word256.Length - 1;
    private const int WordMask = Word8.Length - 1;
    private Word8 _bits;
    private int _left;

    /// <summary>Whether any bit may be set: then each sample has to be told.</summary>
    public readonly bool IsActive => _left > 0;

    /// <summary>A new sample came, which takes the place of the one 256 before.</summary>
    /// <param name="at">Its place.</param>
    /// <param name="isMarked">Whether its bit is set.</param>
    public void Put(int at, bool isMarked)
    {
        _left = _left > 0 ? _left - 1 : 0;
        if (isMarked)
        {
            _bits[Shift.Floor(at, 5) & WordMask] |= 1 << (at & 31);
            _left = Word256.Length;
        }
        else
        {
            _bits[Shift.Floor(at, 5) & WordMask] &= ~(1 << (at & 31));
        }
    }

    /// <summary>How many samples without a bit come one after the other.</summary>
    /// <param name="from">Place of the first.</param>
    /// <param name="most">Where to stop counting.</param>
    public readonly int CountClear(int from, int most)
    {
        int count = 0;
        while (count < most && !IsSet((from + count) & Mask))
        {
            count++;
        }

        return count;
    }

    private readonly bool IsSet(int at) => (_bits[Shift.Floor(at, 5) & WordMask] & (1 << (at & 31))) != 0;
}
