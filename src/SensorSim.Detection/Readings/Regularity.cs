// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Tells a missed beat and one too many from an irregular rhythm, in up to eight intervals.</summary>
/// <remarks>
/// Input: intervals of 28 bits, any unit.
/// Product: none.
/// Accumulator: 32 bits; the longest is twice the median.
/// Worst case: eight intervals of 2^28.
/// Output: how many of the newest may be used. Within an eighth of the median counts as alike (common practice: 10 to 20 %).
/// </remarks>
public static class Regularity
{
    /// <summary>How many of the newest intervals come after what looks like a detector's mistake; all of them when nothing does. 0 when the latest alone is short: that cannot be told yet.</summary>
    /// <param name="recent">Intervals, oldest first.</param>
    /// <param name="count">How many, 4 to 8.</param>
    /// <param name="isRegular">Whether those are alike.</param>
    public static int Usable(in Word8 recent, int count, out bool isRegular)
    {
        int middle = Median.OfUpTo8(((ReadOnlySpan<int>)recent)[..count]);
        int near = Shift.Floor(middle, 3);
        int odd = 0;
        int last = -1;
        int sum = 0;
        bool isAdjacent = true;
        for (int i = 0; i < count; i++)
        {
            if (Sat.Abs32(recent[i] - middle) <= near)
            {
                continue;
            }

            isAdjacent &= odd == 0 || last == i - 1;
            sum = recent[i] + (odd == 1 ? sum : 0);
            odd++;
            last = i;
        }

        // One of about twice the median: a beat is missing. Two neighbours that make one: a beat too many.
        bool isMistake = (odd == 1 && Sat.Abs32(sum - (2 * middle)) <= 2 * near)
            || (odd == 2 && isAdjacent && Sat.Abs32(sum - middle) <= near);
        isRegular = odd == 0 || isMistake;
        if (odd == 1 && last == count - 1 && sum < middle)
        {
            // Early, or one too many? The next one tells.
            return 0;
        }

        return isMistake ? count - 1 - last : count;
    }
}
