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
