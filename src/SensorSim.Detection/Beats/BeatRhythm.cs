// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>The last eight RR intervals: what is usual, and whether they are regular enough to expect anything.</summary>
/// <remarks>
/// Input: working samples, 9 bits.
/// Product: none.
/// Accumulator: 32 bits.
/// Worst case: none.
/// Output: working samples.
/// </remarks>
public struct BeatRhythm
{
    /// <summary>No interval counts as longer than this [working samples]: hours at any rate, and eight of them fit a word.</summary>
    public const int Longest = 1 << 24;

    private Word8 _rr;
    private int _at;

    /// <summary>Intervals seen, up to 8.</summary>
    public int Count { get; private set; }

    /// <summary>Mean of them; 0 while there is none.</summary>
    public int Mean { get; private set; }

    /// <summary>Median of them; 0 while there is none.</summary>
    public int Median { get; private set; }

    /// <summary>Whether six of eight lie within an eighth of the median.</summary>
    public bool IsRegular { get; private set; }

    /// <summary>Interval between two places; at most <see cref="Longest"/>, for a silence may last for months.</summary>
    /// <param name="later256">The later place [1/256 working sample].</param>
    /// <param name="earlier256">The earlier one.</param>
    /// <returns>The interval [working samples].</returns>
    public static int Apart(long later256, long earlier256)
    {
        long apart = (later256 - earlier256) >> 8;
        return apart < Longest ? (int)apart : Longest;
    }

    /// <summary>Takes an interval.</summary>
    /// <param name="rr">The interval [working samples].</param>
    public void Add(int rr)
    {
        if (Count == 0)
        {
            for (int i = 0; i < Word8.Length; i++)
            {
                _rr[i] = rr;
            }
        }

        _rr[_at & (Word8.Length - 1)] = rr;
        _at++;
        Count += Count < Word8.Length ? 1 : 0;
        Median = FixedPoint.Median.OfUpTo8(_rr);
        int sum = 0;
        int near = 0;
        for (int i = 0; i < Word8.Length; i++)
        {
            sum += _rr[i];
            near += IsUsual(_rr[i]) ? 1 : 0;
        }

        Mean = sum >> 3;
        IsRegular = Count == Word8.Length && near >= 6;
    }

    /// <summary>Whether an interval lies within an eighth of the median.</summary>
    /// <param name="rr">The interval.</param>
    public readonly bool IsUsual(int rr) => Sat.Abs32(rr - Median) <= Median >> 3;

    /// <summary>Whether an interval has room for a beat left out: more than one and three eighths medians.</summary>
    /// <param name="rr">The interval.</param>
    public readonly bool IsLong(int rr) => Count > 0 && rr > Median + (Median >> 2) + (Median >> 3);
}
