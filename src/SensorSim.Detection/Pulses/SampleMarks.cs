// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>One bit for each of the latest 256 working samples: it was made up, or a jump of the level lies in it.</summary>
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

    /// <summary>Sets every bit.</summary>
    public void SetAll()
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            _bits[i] = -1;
        }

        _left = Word256.Length;
    }

    /// <summary>A new sample came, which takes the place of the one 256 before.</summary>
    /// <param name="at">Its place.</param>
    /// <param name="isMarked">Whether its bit is set.</param>
    public void Put(int at, bool isMarked)
    {
        _left--;
        if (isMarked)
        {
            Set(at);
        }
        else
        {
            _bits[(at >> 5) & WordMask] &= ~(1 << (at & 31));
        }
    }

    /// <summary>Sets the bit of a sample.</summary>
    /// <param name="at">Its place.</param>
    public void Set(int at)
    {
        _bits[(at >> 5) & WordMask] |= 1 << (at & 31);
        _left = Word256.Length;
    }

    /// <summary>How many samples without a bit come one after the other.</summary>
    /// <param name="from">Place of the first.</param>
    /// <param name="step">1 to go forward, −1 to go back.</param>
    /// <param name="most">Where to stop counting.</param>
    public readonly int CountClear(int from, int step, int most)
    {
        int count = 0;
        while (count < most && !IsSet((from + (count * step)) & Mask))
        {
            count++;
        }

        return count;
    }

    private readonly bool IsSet(int at) => (_bits[(at >> 5) & WordMask] & (1 << (at & 31))) != 0;
}
