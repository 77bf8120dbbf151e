// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <content>Eight places at once.</content>
public partial struct FootLocator
{
    private static bool IsForLanes(int origin, int reach, int arm) =>
        (2 * reach) + 3 <= Lanes.Count && HeldLanes.Fits(origin - reach - 1, arm);

    // What Steepest does: all its slopes are neighbours.
    private static int SteepestLanes(
        in CubicFit fit, in Word256 held, int origin, int reach, int shift, out int slope, out int before, out int after)
    {
        Word8 made = default;
        Span<int> slopes = made;
        fit.SlopesLanes(held, origin - reach - 1, shift).StoreUnsafe(ref MemoryMarshal.GetReference(slopes));
        int best = 1;
        for (int i = 2; i <= (2 * reach) + 1; i++)
        {
            best = slopes[i] > slopes[best] ? i : best;
        }

        slope = slopes[best];
        before = slopes[best - 1];
        after = slopes[best + 1];
        return best - 1 - reach;
    }

    /// <summary>Largest magnitude of the differences from a reference.</summary>
    private static int LargestLanes(in Word256 held, int from, int count, int reference)
    {
        Vector256<int> zero = Vector256.Create(reference);
        Vector256<int> largests = Vector256<int>.Zero;
        int largest = 0;
        for (int done = 0; done < count;)
        {
            if (count - done >= Lanes.Count && HeldLanes.Fits(from + done, 0))
            {
                largests = Vector256.Max(largests, Vector256.Abs(Vector256.LoadUnsafe(ref HeldLanes.At(held, from + done)) - zero));
                done += Lanes.Count;
            }
            else
            {
                int difference = Sat.Abs32(held[(from + done) & Mask] - reference);
                largest = difference > largest ? difference : largest;
                done++;
            }
        }

        Vector128<int> halves = Vector128.Max(largests.GetLower(), largests.GetUpper());
        for (int i = 0; i < Vector128<int>.Count; i++)
        {
            largest = halves[i] > largest ? halves[i] : largest;
        }

        return largest;
    }

    /// <summary>The lowest level of the fit at neighbouring places.</summary>
    private static int LowestLanes(in CubicFit fit, in Word256 held, int from, int count, int reference, int shift)
    {
        Word8 made = default;
        Span<int> levels = made;
        int lowest = int.MaxValue;
        for (int done = 0; done < count; done += Lanes.Count)
        {
            int most = count - done < Lanes.Count ? count - done : Lanes.Count;
            if (HeldLanes.Fits(from + done, fit.Arm))
            {
                fit.LevelsLanes(held, from + done, reference, shift).StoreUnsafe(ref MemoryMarshal.GetReference(levels));
            }
            else
            {
                for (int i = 0; i < most; i++)
                {
                    levels[i] = fit.Level(held, from + done + i, reference, shift);
                }
            }

            for (int i = 0; i < most; i++)
            {
                lowest = levels[i] < lowest ? levels[i] : lowest;
            }
        }

        return lowest;
    }
}
