// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Fourth stage, once per upstroke: steepest point and foot by intersecting tangents, on minus the light.</summary>
/// <remarks>
/// Input: working samples of 27 bits; differences from the steepest sample brought to 15 bits.
/// Product: see <see cref="CubicFit"/>.
/// Accumulator: 32 bits.
/// Worst case: see <see cref="CubicFit"/>; level differences below 2^31, scaled to 22 bits before the division.
/// Output: places in 1/256 working sample relative to the sample looked round; one 32-bit division for the foot, one for the vertex.
/// </remarks>
public struct FootLocator
{
    private const int Mask = Word256.Length - 1;
    private CubicFit _fit;

    /// <summary>Steepest point [1/256 working sample after the origin].</summary>
    public int Steepest256 { get; private set; }

    /// <summary>Foot [1/256 working sample after the origin].</summary>
    public int Foot256 { get; private set; }

    /// <summary>The minimum before the upstroke, in the samples' unit.</summary>
    public int Minimum { get; private set; }

    /// <summary>Computes the fit's weights.</summary>
    /// <param name="windows">Lengths.</param>
    public void Restart(in PulseWindows windows) => _fit.Restart(windows.FitArm);

    /// <summary>Looks round a sample.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="held">Minus the light: the latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="origin">Place of a sample near the steepest one.</param>
    /// <param name="reach">How far before it the minimum may lie: the smaller of the longest reach and the time since the last pulse.</param>
    /// <returns>Whether there is an upstroke with a foot.</returns>
    public bool Locate(in PulseWindows w, in Word256 held, int origin, int reach)
    {
        int reference = held[origin & Mask];
        int shift = ScaleShift(w, held, origin, reference, reach);
        int best = Steepest(w, held, origin, shift, out int slope);
        if (slope <= 0)
        {
            return false;
        }

        int before = _fit.Slope(held, origin + best - 1, shift);
        int after = _fit.Slope(held, origin + best + 1, shift);
        int offset = Parabola.Vertex256(before, slope, after);

        // The vertex lies a quarter of (before − after) × offset above the middle; |offset| is at most half a sample.
        slope += Shift.Round(Shift.Round(after - before, 8) * offset, 2);
        Steepest256 = (best * 256) + offset;

        int steep = _fit.Level(held, origin + best, reference, shift) + (Shift.Round(slope, 8) * offset);
        int low = LowestLevel(w, held, origin + best, reference, shift, reach);
        if (steep <= low)
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

    private static int ScaleShift(in PulseWindows w, in Word256 held, int origin, int reference, int reach)
    {
        int largest = 0;
        for (int i = -(reach + w.SteepReach + w.FitArm); i <= w.SteepReach + w.FitArm + 1; i++)
        {
            int difference = Sat.Abs32(held[(origin + i) & Mask] - reference);
            largest = difference > largest ? difference : largest;
        }

        // Differences between two samples may be twice as large.
        return Shift.Needed(largest, CubicFit.InputBits - 1);
    }

    private readonly int Steepest(in PulseWindows w, in Word256 held, int origin, int shift, out int slope)
    {
        int best = 0;
        slope = int.MinValue;
        for (int i = -w.SteepReach; i <= w.SteepReach; i++)
        {
            int here = _fit.Slope(held, origin + i, shift);
            if (here > slope)
            {
                slope = here;
                best = i;
            }
        }

        return best;
    }

    /// <summary>Coarse by the lowest sum of 2m + 1 samples, fine by the fit near it.</summary>
    private readonly int LowestLevel(in PulseWindows w, in Word256 held, int steepest, int reference, int shift, int reach)
    {
        int arm = w.FitArm;
        int sum = 0;
        for (int i = -arm; i <= arm; i++)
        {
            sum += held[(steepest + i) & Mask] - reference;
        }

        int lowestSum = sum;
        int coarse = 0;
        for (int i = 1; i <= reach - arm; i++)
        {
            sum += held[(steepest - i - arm) & Mask] - held[(steepest - i + arm + 1) & Mask];
            if (sum < lowestSum)
            {
                lowestSum = sum;
                coarse = i;
            }
        }

        int lowest = int.MaxValue;
        for (int i = coarse - arm; i <= coarse + 1; i++)
        {
            int level = _fit.Level(held, steepest - i, reference, shift);
            lowest = level < lowest ? level : lowest;
        }

        return lowest;
    }
}
