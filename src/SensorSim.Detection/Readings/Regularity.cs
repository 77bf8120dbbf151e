// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Tells a missed beat and one too many from an irregular rhythm, in up to eight intervals.</summary>
/// <remarks>
/// Input: intervals of 27 bits (6 s), any unit.
/// Product: by 8, 30 bits.
/// Accumulator: 32 bits.
/// Worst case: eight intervals of 6 s in units of 2^-24 s: below 2^30.
/// Output: how many of the newest may be used. Within an eighth of the median counts as alike (common practice: 10 to 20 %).
/// </remarks>
public static class Regularity
{
    // With more odd ones than half of them the rhythm itself is irregular.
    private const int MostOdd = 4;

    // An early beat without its pause takes up to half a beat off, a false or a missed one a whole beat.
    private const int Fits = 0;
    private const int Off = 1;
    private const int Miscounted = 2;

    // So many alike in a row are a new rate, whatever the rate before was.
    private const int NewRate = 3;

    /// <summary>How many of the newest intervals come after what looks like a detector's mistake; all of them when nothing does. 0 when the latest alone is short: that cannot be told yet.</summary>
    /// <param name="recent">Intervals, oldest first.</param>
    /// <param name="count">How many, 4 to 8.</param>
    /// <param name="known">What was usual when eight intervals were last alike, a few beats ago; 0 when that is not known.</param>
    /// <param name="usual">The usual one of these.</param>
    /// <param name="isRegular">Whether those are alike.</param>
    public static int Usable(in Word8 recent, int count, int known, out int usual, out bool isRegular)
    {
        usual = Median.OfUpTo8(((ReadOnlySpan<int>)recent)[..count]);
        int odd = CountOdd(recent, count, usual);
        if (odd > MostOdd && known > 0)
        {
            // Early beats and false ones together hide what is usual; what it was a moment ago shows it.
            usual = known;
            odd = CountOdd(recent, count, usual);
        }

        int near = Shift.Floor(usual, 3);
        int mistakes = 0;
        int last = -1;
        bool hasRest = false;
        int oddOfRest = 0;
        for (int i = 0; i < count; i++)
        {
            if (!IsOdd(recent[i], usual))
            {
                continue;
            }

            int end = EndOfOdd(recent, count, i, usual);
            int off = Miscount(recent, count, i, end);
            while (off == Off && end + 1 < count && IsOdd(recent[end + 1], usual))
            {
                // One between two odd ones may belong to them.
                end = EndOfOdd(recent, count, end + 1, usual);
                off = Miscount(recent, count, i, end);
            }

            if (off == Miscounted)
            {
                mistakes++;
                last = end - 1;
            }
            else if (i <= 1 && off == Off)
            {
                // The window begins inside of what may be a mistake: when all that follows is usual, the rest of it is left out as well.
                last = end - 1;
                hasRest = true;
                oddOfRest = CountOdd(recent, end, usual);
            }

            i = end - 1;
        }

        // One place alone is a mistake, though R peaks that scatter make other intervals odd as well; where it recurs it is the heart.
        bool isMistake = (mistakes == 1 || (mistakes == 0 && hasRest && odd == oddOfRest)) && odd <= MostOdd;
        isRegular = odd == 0 || (isMistake && odd <= 2);
        if (odd > 0 && odd <= 2 && last < 0 && (recent[count - 1] < usual - near ? !IsLong(recent, count, usual + near) : IsLoneAndLate(recent, count, usual)))
        {
            // Early, or one too many? Late, or one displaced or missed? The next one tells.
            return 0;
        }

        return isMistake ? count - 1 - last : count;
    }

    /// <summary>Whether some neighbours last longer or shorter than as many usual ones, by those before and after them.</summary>
    private static int Miscount(in Word8 recent, int count, int begin, int end)
    {
        int before = begin > 1 ? recent[begin - 1] : 0;
        int after = end < count ? recent[end] : 0;
        int usual = before == 0 ? after : after == 0 ? before : Shift.Round(before + after, 1);
        if (usual == 0 || IsNewRate(recent, begin, end))
        {
            return Fits;
        }

        int sum = 0;
        for (int i = begin; i < end; i++)
        {
            sum += recent[i];
        }

        int off = sum - ((end - begin) * usual);
        return off > Shift.Floor(usual, 1) || off < -Shift.Floor(5 * usual, 3) ? Miscounted : Sat.Abs32(off) > Shift.Floor(usual, 2) ? Off : Fits;
    }

    private static bool IsNewRate(in Word8 recent, int begin, int end)
    {
        int newest = recent[end - 1];
        int near = Shift.Floor(newest, 4);
        return end - begin >= NewRate && Sat.Abs32(recent[end - 2] - newest) <= near && Sat.Abs32(recent[end - 3] - newest) <= near;
    }

    private static bool IsOdd(int interval, int usual) => Sat.Abs32(interval - usual) > Shift.Floor(usual, 3);

    /// <summary>Whether the latest interval is long without an early one before it, whose pause it might be.</summary>
    private static bool IsLoneAndLate(in Word8 recent, int count, int usual) =>
        recent[count - 1] > usual + Shift.Floor(usual, 3)
        && Sat.Abs32(recent[count - 2] + recent[count - 1] - (2 * usual)) > Shift.Floor(usual, 2);

    private static int EndOfOdd(in Word8 recent, int count, int begin, int usual)
    {
        int end = begin;
        while (end < count && IsOdd(recent[end], usual))
        {
            end++;
        }

        return end;
    }

    private static int CountOdd(in Word8 recent, int count, int usual)
    {
        int odd = 0;
        for (int i = 0; i < count; i++)
        {
            odd += IsOdd(recent[i], usual) ? 1 : 0;
        }

        return odd;
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
