// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>The foot by the second derivative: its largest value between the start of the pulse and the steepest point.</summary>
internal static class PulseCurvature
{
    private const int Parts = 8;

    // Where earlier pulses bend less than this share of the largest bend, there is only the hump of the pulse's own wave.
    private const double LeastShare = 0.2;

    /// <summary>Finds it.</summary>
    /// <param name="sum">The earlier beats and the own components, at their start.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="foot">Minimum and steepest point.</param>
    /// <param name="curved">Receives the place, after the start [s].</param>
    public static bool TryLargest(PulseSum sum, in PulseContour contour, double scale, in PulseFoot foot, out double curved)
    {
        curved = contour.CurvatureGuess * scale;
        if (sum.YoungestX >= 1 && PulseRoot.TryNear(sum, 3, 0, foot.Steepest, ref curved, out PulsePoint at) && at.JerkSlope < 0)
        {
            if (Math.Abs(foot.EarlierCurvature) < LeastShare * at.Curvature)
            {
                return true;
            }
        }

        return Look(sum, foot, out curved);
    }

    // There may be more than one hump: a coarse look finds the largest, a root of the third derivative refines it.
    private static bool Look(PulseSum sum, in PulseFoot foot, out double curved)
    {
        double step = foot.Steepest / Parts;
        double largest = double.MinValue;
        int best = 0;
        for (int i = 0; i <= Parts; i++)
        {
            sum.At3(i * step, out PulsePoint at);
            if (at.Curvature > largest)
            {
                largest = at.Curvature;
                best = i;
            }
        }

        curved = best * step;
        if (best == 0 || best == Parts)
        {
            return false;
        }

        curved = PulseRoot.Between(sum, 3, 1, curved - step, curved + step);
        return true;
    }
}
