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
    // With more odd ones than half of them the rhythm itself is irregular.
    private const int MostOdd = 4;

    /// <summary>How many of the newest intervals come after what looks like a detector's mistake; all of them when nothing does. 0 when the latest alone is short: that cannot be told yet.</summary>
    /// <param name="recent">Intervals, oldest first.</param>
    /// <param name="count">How many, 4 to 8.</param>
    /// <param name="isRegular">Whether those are alike.</param>
    public static int Usable(in Word8 recent, int count, out bool isRegular)
    {
        int middle = Median.OfUpTo8(((ReadOnlySpan<int>)recent)[..count]);
        int near = Shift.Floor(middle, 3);
        int odd = 0;
        int doubles = 0;
        int cuts = 0;
        int last = -1;
        for (int i = 0; i < count; i++)
        {
            if (Sat.Abs32(recent[i] - middle) <= near)
            {
                continue;
            }

            // Of about twice the median: a beat is missing. Two neighbours that make one: a beat too many.
            bool isDouble = Sat.Abs32(recent[i] - (2 * middle)) <= 2 * near;
            bool isCut = i > 0 && recent[i] < middle && recent[i - 1] < middle - near && Sat.Abs32(recent[i] + recent[i - 1] - middle) <= near;
            doubles += isDouble ? 1 : 0;
            cuts += isCut ? 1 : 0;
            last = isDouble || isCut ? i : last;
            odd++;
        }

        // One alone is a mistake, though R peaks that scatter make other intervals odd as well; where they recur it is the heart.
        bool isMistake = doubles + cuts == 1 && odd <= MostOdd;
        isRegular = odd == 0 || (isMistake && odd <= 2);
        if (odd > 0 && odd <= 2 && last < 0 && recent[count - 1] < middle - near && !IsLong(recent, count, middle + near))
        {
            // Early, or one too many? The next one tells.
            return 0;
        }

        return isMistake ? count - 1 - last : count;
    }

    private static bool IsLong(in Word8 recent, int count, int limit)
    {
        bool isLong = false;
        for (int i = 0; i < count; i++)
        {
            isLong |= recent[i] > limit;
        }

        return isLong;
    }
}
