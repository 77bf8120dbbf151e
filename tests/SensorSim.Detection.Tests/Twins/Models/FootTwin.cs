// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Steepest point and foot by intersecting tangents, in doubles.</summary>
internal sealed class FootTwin(double[] x, PulseWindows w, CubicFitTwin[] fits)
{
    /// <summary>Looks round a sample.</summary>
    /// <param name="origin">A sample near the steepest one.</param>
    /// <param name="choice">Which fit.</param>
    /// <param name="reach">How far before it the minimum may lie.</param>
    /// <returns>What was found, or null when there is no upstroke with a foot.</returns>
    public FootPlace? Locate(int origin, int choice, int reach)
    {
        CubicFitTwin fit = fits[choice];
        int best = 0;
        double slope = double.NegativeInfinity;
        for (int i = -w.SteepReach; i <= w.SteepReach; i++)
        {
            double here = fit.Slope(x, origin + i);
            (slope, best) = here > slope ? (here, i) : (slope, best);
        }

        if (slope <= 0)
        {
            return null;
        }

        int at = origin + best;
        double before = fit.Slope(x, at - 1);
        double after = fit.Slope(x, at + 1);
        double curvature = (2 * slope) - before - after;
        double offset = curvature == 0 ? 0 : Math.Clamp((after - before) / (2 * curvature), -0.5, 0.5);
        slope += (after - before) * offset / 4;
        double lowest = Lowest(fit, w.Arm(choice), at, reach);
        double rise = fit.Level(x, at) + (slope * offset) - lowest;
        double back = rise / slope;
        return rise > 0 && slope > 0 && back <= reach ? new FootPlace(at + offset, at + offset - back, lowest, fits[^1].Slope(x, at)) : null;
    }

    /// <summary>Where the pulse is fullest: the slope of the fit passes zero, nearest before a place that may be late; null when it does not.</summary>
    public double? Fullest(int from, int choice, int most)
    {
        double after = fits[choice].Slope(x, from);
        for (int i = 1; i <= most && after < 0; i++)
        {
            double before = fits[choice].Slope(x, from - i);
            if (before >= 0)
            {
                return from - i + (before / (before - after));
            }

            after = before;
        }

        return null;
    }

    private double Lowest(CubicFitTwin fit, int arm, int steepest, int reach)
    {
        double lowestSum = double.PositiveInfinity;
        int coarse = 0;
        for (int i = 0; i <= reach - arm; i++)
        {
            double sum = 0;
            for (int k = -arm; k <= arm; k++)
            {
                sum += x[Math.Clamp(steepest - i + k, 0, x.Length - 1)];
            }

            (lowestSum, coarse) = sum < lowestSum ? (sum, i) : (lowestSum, coarse);
        }

        double lowest = double.PositiveInfinity;
        for (int i = coarse - arm; i <= coarse + 1; i++)
        {
            lowest = Math.Min(lowest, fit.Level(x, steepest - i));
        }

        return lowest;
    }
}

/// <summary>What <see cref="FootTwin"/> found of one pulse.</summary>
/// <param name="Steepest">Steepest point [working samples].</param>
/// <param name="Foot">Foot by tangents [working samples].</param>
/// <param name="Minimum">Level of the minimum before it.</param>
/// <param name="ShortSlope">Slope there by the shortest fit.</param>
internal readonly record struct FootPlace(double Steepest, double Foot, double Minimum, double ShortSlope);
