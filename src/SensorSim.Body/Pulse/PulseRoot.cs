// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Places where a derivative of the pulse is 0: fast from a good guess, or safe inside a bracket.</summary>
internal static class PulseRoot
{
    /// <summary>
    /// A Newton step this small is the last one [s]. What is left falls with its square: below 5e-8 s where the curve bends within 10 ms,
    /// as it does nowhere else as sharply as near the start of a pulse.
    /// </summary>
    public const double LastNewtonStep = 2e-5;

    // Halley's method: what is left falls with the third power of the step.
    private const double LastHalleyStep = 1e-4;
    private const double Tolerance = 1e-10;

    /// <summary>The place near a guess where a derivative is 0, by Halley's method (Newton's for the third derivative).</summary>
    /// <param name="sum">The pulse, its own start included.</param>
    /// <param name="derivative">Which derivative: 1 extremum, 2 steepest point, 3 largest second derivative.</param>
    /// <param name="low">The place must lie above this, after the start [s].</param>
    /// <param name="high">And below this [s].</param>
    /// <param name="x">The guess; receives the place.</param>
    /// <param name="at">Receives the derivatives at the last point but one, and the value at the place itself.</param>
    /// <returns>Whether it was found; none from that guess proves nothing.</returns>
    public static bool TryNear(PulseSum sum, int derivative, double low, double high, ref double x, out PulsePoint at)
    {
        at = default;
        for (int i = 0; i < 8 && x > low && x < high; i++)
        {
            at = At(sum, derivative, x);
            double f = Pick(at, derivative, out double slope);
            double step;
            double last;
            if (derivative < 3)
            {
                double bend = derivative == 1 ? at.Jerk : at.JerkSlope;
                step = -2 * f * slope / ((2 * slope * slope) - (f * bend));
                last = LastHalleyStep;
            }
            else
            {
                step = -f / slope;
                last = LastNewtonStep;
            }

            x += step;
            if (Math.Abs(step) < last)
            {
                at.Value += step * (at.Slope + (0.5 * step * at.Curvature));
                return x > low && x < high;
            }
        }

        return false;
    }

    /// <summary>A root inside a bracket by Newton's method: a step that leaves the shrinking bracket becomes a halving.</summary>
    /// <param name="sum">The pulse, its own start included.</param>
    /// <param name="derivative">Which derivative is 0 there.</param>
    /// <param name="sign">Its sign at <paramref name="low"/>; it has the other at <paramref name="high"/>.</param>
    /// <param name="low">Lower end, after the start [s].</param>
    /// <param name="high">Upper end [s].</param>
    public static double Between(PulseSum sum, int derivative, int sign, double low, double high)
    {
        double x = 0.5 * (low + high);
        for (int i = 0; i < 80 && high - low > Tolerance; i++)
        {
            double f = Pick(At(sum, derivative, x), derivative, out double slope);
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

    private static PulsePoint At(PulseSum sum, int derivative, double x)
    {
        PulsePoint at;
        if (derivative == 1)
        {
            sum.At3(x, out at);
        }
        else
        {
            sum.At4(x, out at);
        }

        return at;
    }

    private static double Pick(in PulsePoint at, int derivative, out double slope)
    {
        slope = derivative == 1 ? at.Curvature : derivative == 2 ? at.Jerk : at.JerkSlope;
        return derivative == 1 ? at.Slope : derivative == 2 ? at.Curvature : at.Jerk;
    }
}
