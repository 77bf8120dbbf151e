// SPDX-License-Identifier: MIT
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
    /// Output: same format, floor; at most 28 comparisons, called once per beat.
    /// </remarks>
    public static int OfUpTo8(ReadOnlySpan<int> values)
    {
        Word8 sorted = default;
        int count = values.Length < 8 ? values.Length : 8;
        for (int i = 0; i < count; i++)
        {
            int value = values[i];
            int at = i;
            while (at > 0 && sorted[at - 1] > value)
            {
                sorted[at] = sorted[at - 1];
                at--;
            }

            sorted[at] = value;
        }

        int middle = count >> 1;
        return (count & 1) != 0 ? sorted[middle] : (sorted[middle] >> 1) + (sorted[middle - 1] >> 1) + (sorted[middle] & sorted[middle - 1] & 1);
    }
}
