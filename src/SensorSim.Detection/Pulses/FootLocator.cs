// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Fourth stage, once per upstroke: steepest point and foot by intersecting tangents, on minus the light.</summary>
/// <remarks>
/// Input: working samples of 27 bits; differences from the steepest sample brought to 15 bits.
/// Product: see <see cref="CubicFit"/>.
/// Accumulator: 32 bits.
/// Worst case: see <see cref="CubicFit"/>; level differences below 2^31, scaled to 22 bits before the division.
/// Output: places in 1/256 working sample relative to the sample looked round; three 32-bit divisions.
/// </remarks>
public partial struct FootLocator
{
    private const int Mask = Word256.Length - 1;
    private CubicFits _fits;

    /// <summary>Steepest point [1/256 working sample after the origin].</summary>
    public int Steepest256 { get; private set; }

    /// <summary>Foot [1/256 working sample after the origin].</summary>
    public int Foot256 { get; private set; }

    /// <summary>The minimum before the upstroke, in the samples' unit.</summary>
    public int Minimum { get; private set; }

    /// <summary>Where the minimum lies, roughly [working samples before the origin].</summary>
    public int MinimumBack { get; private set; }

    /// <summary>Slope at the steepest point, × 2^14 / 2^<see cref="ScaleShift"/> per working sample.</summary>
    public int Slope { get; private set; }

    /// <summary>Slope at the steepest point by the shortest fit, × 2^14 / 2^<see cref="ScaleShift"/> per working sample.</summary>
    public int ShortSlope { get; private set; }

    /// <summary>Right shift that brought differences to 15 bits.</summary>
    public int ScaleShift { get; private set; }

    /// <summary>Computes the fits' weights.</summary>
    /// <param name="windows">Lengths.</param>
    public void Restart(in PulseWindows windows)
    {
        _fits[0].Restart(windows.FitArm);
        _fits[1].Restart(windows.FitArm1);
        _fits[CubicFits.Shortest].Restart(windows.FitArm2);
    }

    /// <summary>Looks round a sample.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="held">Minus the light: the latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="origin">Place of a sample near the steepest one.</param>
    /// <param name="choice">Which fit, 0 the longest.</param>
    /// <param name="reach">How far before it the minimum may lie: the smaller of the longest reach and the time since the last pulse.</param>
    /// <param name="isCut">Whether the samples before the reach are no signal: then the minimum must not lie at its end.</param>
    /// <returns>Whether there is an upstroke with a foot.</returns>
    public bool Locate(in PulseWindows w, in Word256 held, int origin, int choice, int reach, bool isCut)
    {
        CubicFit fit = _fits[choice];
        int arm = fit.Arm;
        int reference = held[origin & Mask];
        int shift = Scale(held, origin, reference, reach + arm + w.SteepReach, arm + w.SteepReach + 1);
        int best = Steepest(fit, held, origin, w.SteepReach, shift, out int slope, out int before, out int after);
        if (slope <= 0)
        {
            return false;
        }

        int offset = Parabola.Vertex256(before, slope, after);

        // The vertex lies a quarter of (before − after) × offset above the middle; |offset| is at most half a sample.
        slope += Shift.Round(Shift.Round(after - before, 8) * offset, 2);
        Steepest256 = (best * 256) + offset;
        ScaleShift = shift;
        Slope = slope;
        ShortSlope = _fits[CubicFits.Shortest].Slope(held, origin + best, shift);

        int steep = fit.Level(held, origin + best, reference, shift) + (Shift.Round(slope, 8) * offset);
        int low = LowestLevel(fit, held, origin + best, reference, shift, reach, out int coarse);
        MinimumBack = coarse - best;
        if (steep <= low || (isCut && coarse >= reach - arm))
        {
            return false;
        }

        Minimum = reference + (Shift.Round(low, CubicFit.WeightBits) << shift);
        int scale = Shift.Needed(Sat.Sub32(steep, low), 22);
        int rise = Shift.Round(Sat.Sub32(steep, low), scale);
        int run = Shift.Round(slope, scale);
        if (rise <= 0 || run <= 0)
        {
            return false;
        }

        // A tangent that meets the minimum's level further back than the minimum may lie belongs to no upstroke.
        int back256 = ((rise * 256) + (run >> 1)) / run;
        Foot256 = Steepest256 - back256;
        return back256 <= reach * 256;
    }

    /// <summary>Where the pulse is fullest: the fit's slope passes zero, nearest before a place that is known to be a little late.</summary>
    /// <param name="held">Minus the light: the latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="from">That place, after the origin [working samples].</param>
    /// <param name="origin">The origin.</param>
    /// <param name="choice">Which fit.</param>
    /// <param name="most">How many samples it may be late.</param>
    /// <returns>Place after the origin [1/256 working sample]; the lowest word when there is none.</returns>
    public readonly int Fullest256(in Word256 held, int origin, int from, int choice, int most)
    {
        int after = _fits[choice].Slope(held, origin + from, ScaleShift);
        for (int i = 1; i <= most && after < 0; i++)
        {
            int before = _fits[choice].Slope(held, origin + from - i, ScaleShift);
            if (before >= 0)
            {
                // Zero lies between; magnitudes to 20 bits before the division.
                int span = Shift.Round(before, 11) - Shift.Round(after, 11);
                int past = span == 0 ? 0 : Shift.Round(before, 11) * 256 / span;
                return ((from - i) * 256) + past;
            }

            after = before;
        }

        return int.MinValue;
    }

    private static int Scale(in Word256 held, int origin, int reference, int back, int forward)
    {
        if (Avx2.IsSupported)
        {
            return Shift.Needed(LargestLanes(held, origin - back, back + forward + 1, reference), CubicFit.InputBits - 1);
        }

        int largest = 0;
        for (int i = -back; i <= forward; i++)
        {
            int difference = Sat.Abs32(held[(origin + i) & Mask] - reference);
            largest = difference > largest ? difference : largest;
        }

        // Differences between two samples may be twice as large.
        return Shift.Needed(largest, CubicFit.InputBits - 1);
    }

    /// <summary>The place with the largest slope, and the slopes there, one sample before and one after.</summary>
    private static int Steepest(
        in CubicFit fit, in Word256 held, int origin, int reach, int shift, out int slope, out int before, out int after)
    {
        if (Avx2.IsSupported)
        {
            if (IsForLanes(origin, reach, fit.Arm))
            {
                return SteepestLanes(fit, held, origin, reach, shift, out slope, out before, out after);
            }
        }

        int best = 0;
        slope = int.MinValue;
        for (int i = -reach; i <= reach; i++)
        {
            int here = fit.Slope(held, origin + i, shift);
            if (here > slope)
            {
                slope = here;
                best = i;
            }
        }

        before = fit.Slope(held, origin + best - 1, shift);
        after = fit.Slope(held, origin + best + 1, shift);
        return best;
    }

    /// <summary>Coarse by the lowest sum of 2m + 1 samples, fine by the fit near it.</summary>
    private static int LowestLevel(in CubicFit fit, in Word256 held, int steepest, int reference, int shift, int reach, out int coarse)
    {
        int arm = fit.Arm;
        int sum = 0;
        for (int i = -arm; i <= arm; i++)
        {
            sum += held[(steepest + i) & Mask] - reference;
        }

        int lowestSum = sum;
        coarse = 0;
        for (int i = 1; i <= reach - arm; i++)
        {
            sum += held[(steepest - i - arm) & Mask] - held[(steepest - i + arm + 1) & Mask];
            if (sum < lowestSum)
            {
                lowestSum = sum;
                coarse = i;
            }
        }

        if (Avx2.IsSupported)
        {
            return LowestLanes(fit, held, steepest - coarse - 1, arm + 2, reference, shift);
        }

        int lowest = int.MaxValue;
        for (int i = coarse - arm; i <= coarse + 1; i++)
        {
            int level = fit.Level(held, steepest - i, reference, shift);
            lowest = level < lowest ? level : lowest;
        }

        return lowest;
    }
}
