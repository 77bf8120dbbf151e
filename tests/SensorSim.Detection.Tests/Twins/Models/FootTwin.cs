// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Steepest point and foot by intersecting tangents, in doubles.</summary>
internal sealed class FootTwin(double[] x, PulseWindows w, CubicFitTwin fit)
{
    /// <summary>Looks round a sample.</summary>
    /// <param name="origin">A sample near the steepest one.</param>
    /// <param name="reach">How far before it the minimum may lie.</param>
    /// <returns>Steepest point and foot [working samples], or null when there is no upstroke with a foot.</returns>
    public (double Steepest, double Foot)? Locate(int origin, int reach)
    {
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
        double rise = fit.Level(x, at) + (slope * offset) - Lowest(at, reach);
        double back = rise / slope;
        return rise > 0 && slope > 0 && back <= reach ? (at + offset, at + offset - back) : null;
    }

    private double Lowest(int steepest, int reach)
    {
        double lowestSum = double.PositiveInfinity;
        int coarse = 0;
        for (int i = 0; i <= reach - w.FitArm; i++)
        {
            double sum = 0;
            for (int k = -w.FitArm; k <= w.FitArm; k++)
            {
                sum += x[Math.Clamp(steepest - i + k, 0, x.Length - 1)];
            }

            (lowestSum, coarse) = sum < lowestSum ? (sum, i) : (lowestSum, coarse);
        }

        double lowest = double.PositiveInfinity;
        for (int i = coarse - w.FitArm; i <= coarse + 1; i++)
        {
            lowest = Math.Min(lowest, fit.Level(x, steepest - i));
        }

        return lowest;
    }
}
