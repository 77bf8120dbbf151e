// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>Middle values of a few numbers.</summary>
public static class Median
{
    /// <summary>The median of at most eight numbers; of an even count the mean of the middle two, rounded down.</summary>
    /// <param name="values">1 to 8 numbers; left as they are.</param>
    /// <remarks>
    /// Input: 32 bits, any common format.
    /// Product: none.
    /// Accumulator: 32 bits; the middle two are halved before they are added, so there is nothing to overflow.
    /// Worst case: the middle values themselves.
    /// Output: same format, floor; 19 comparisons without a jump, called once per beat.
    /// </remarks>
    public static int OfUpTo8(ReadOnlySpan<int> values)
    {
        int count = values.Length < 8 ? values.Length : 8;
        if (count == 0)
        {
            return 0;
        }

        if (Avx2.IsSupported && count == Word8.Length)
        {
            MiddleLanes.Of(Vector256.Create(values), out int fourth, out int fifth);
            return (fifth >> 1) + (fourth >> 1) + (fifth & fourth & 1);
        }

        // As many highest as lowest words in the places that are free, or one more: the middle stays where it is, or becomes the lower of the two.
        Word8 sorted = default;
        for (int i = 0; i < Word8.Length; i++)
        {
            sorted[i] = i < count ? values[i] : ((i - count) & 1) == 0 ? int.MaxValue : int.MinValue;
        }

        Sort8.Sort(ref sorted);
        int lower = sorted[3];
        int upper = sorted[4];
        return (count & 1) != 0 ? lower : (upper >> 1) + (lower >> 1) + (upper & lower & 1);
    }
}
