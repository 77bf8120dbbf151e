// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Once per pulse: where the second derivative is largest before the steepest point, by the least-squares parabola.</summary>
/// <remarks>
/// Input: differences of samples, brought to 15 bits by the caller's shift.
/// Product: 15 bits × the whole-number weights 3k² − m(m + 1), 9 bits for m up to 12 (Savitzky and Golay 1964, quadratic).
/// Accumulator: 32 bits; magnitudes of the weights sum to less than 2^12.
/// Worst case: below 2^28.
/// Output: place in 1/256 working sample, by the parabola through the largest three; one 32-bit division.
/// </remarks>
public static partial class CurvatureFoot
{
    /// <summary>Said when there is no maximum inside the stretch.</summary>
    public const int None = int.MinValue;

    private const int Mask = Word256.Length - 1;

    /// <summary>Looks for the largest second derivative.</summary>
    /// <param name="held">Minus the light: the latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="from">Place of the steepest sample.</param>
    /// <param name="back">How far before it the search goes, at least 2 working samples.</param>
    /// <param name="arm">Half-width m of the fit.</param>
    /// <param name="shift">Right shift that brings differences within the stretch to 15 bits.</param>
    /// <param name="probe">Sees the second derivatives.</param>
    /// <returns>Place after the steepest sample [1/256 working sample], negative; or <see cref="None"/>.</returns>
    public static int Find<TProbe>(in Word256 held, int from, int back, int arm, int shift, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (Avx2.IsSupported)
        {
            if (back <= MostBackLanes)
            {
                return FindLanes(held, from, back, arm, shift, ref probe);
            }
        }

        int best = 0;
        int top = int.MinValue;
        int beforeTop = 0;
        int afterTop = 0;
        int last = Value(held, from + 1, arm, shift);
        int here = Value(held, from, arm, shift);
        for (int i = 0; i <= back; i++)
        {
            int next = Value(held, from - i - 1, arm, shift);
            probe.See(ProbePoint.PulseCurvature, here);
            if (here > top)
            {
                top = here;
                best = i;
                beforeTop = next;
                afterTop = last;
            }

            last = here;
            here = next;
        }

        bool isInside = best > 0 && beforeTop <= top && afterTop <= top;
        return isInside ? Parabola.Vertex256(beforeTop, top, afterTop) - (best * 256) : None;
    }

    private static int Value(in Word256 held, int at, int arm, int shift)
    {
        int middle = held[at & Mask];
        int constant = arm * (arm + 1);
        int sum = 0;
        for (int k = 1; k <= arm; k++)
        {
            int pair = Clipped(held[(at + k) & Mask] - middle, shift) + Clipped(held[(at - k) & Mask] - middle, shift);
            sum += ((3 * k * k) - constant) * pair;
        }

        return sum;
    }

    // What lies outside of the stretch that the shift was found for may be larger: it clips.
    private static int Clipped(int difference, int shift) => Sat.Narrow(Shift.RoundWithRoom(difference, shift), short.MaxValue);
}
