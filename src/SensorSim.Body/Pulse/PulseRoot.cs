// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Places where a derivative of the pulse is 0, inside a bracket.</summary>
internal static class PulseRoot
{
    private const double Tolerance = 1e-10;

    /// <summary>A root by Newton's method: a step that leaves the shrinking bracket becomes a halving.</summary>
    /// <param name="sum">The pulse, its own start included.</param>
    /// <param name="derivative">Which derivative: 1 extremum, 2 steepest point, 3 largest second derivative.</param>
    /// <param name="sign">Its sign at <paramref name="low"/>; it has the other at <paramref name="high"/>.</param>
    /// <param name="low">Lower end, after the start [s].</param>
    /// <param name="high">Upper end [s].</param>
    public static double Between(PulseSum sum, int derivative, int sign, double low, double high)
    {
        double x = 0.5 * (low + high);
        for (int i = 0; i < 80 && high - low > Tolerance; i++)
        {
            double f = At(sum, derivative, x, out double slope);
            if (f * sign > 0)
            {
                low = x;
            }
            else
            {
                high = x;
            }

            // Where the curve is flat there is no Newton step: the infinite one fails the test and becomes a halving.
            double next = x - (f / slope);
            if (Math.Abs(next - x) < Tolerance)
            {
                return next;
            }

            x = next > low && next < high ? next : 0.5 * (low + high);
        }

        return x;
    }

    private static double At(PulseSum sum, int derivative, double x, out double slope)
    {
        PulsePoint at;
        if (derivative < 3)
        {
            sum.At3(x, out at);
        }
        else
        {
            sum.At4(x, out at);
        }

        slope = derivative == 1 ? at.Curvature : derivative == 2 ? at.Jerk : at.JerkSlope;
        return derivative == 1 ? at.Slope : derivative == 2 ? at.Curvature : at.Jerk;
    }
}
