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
    /// Output: same format, floor; 28 comparisons without a jump, called once per beat.
    /// </remarks>
    public static int OfUpTo8(ReadOnlySpan<int> values)
    {
        // How many come before each; of equal ones the earlier does.
        Word8 rank = default;
        int count = values.Length < 8 ? values.Length : 8;
        for (int i = 1; i < count; i++)
        {
            int value = values[i];
            int before = 0;
            for (int j = 0; j < i; j++)
            {
                int isBefore = values[j] <= value ? 1 : 0;
                before += isBefore;
                rank[j] += 1 - isBefore;
            }

            rank[i] = before;
        }

        int middle = count >> 1;
        int upper = 0;
        int lower = 0;
        for (int i = 0; i < count; i++)
        {
            upper = rank[i] == middle ? values[i] : upper;
            lower = rank[i] == middle - 1 ? values[i] : lower;
        }

        return (count & 1) != 0 ? upper : (upper >> 1) + (lower >> 1) + (upper & lower & 1);
    }
}
