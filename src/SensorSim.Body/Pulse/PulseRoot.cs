// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Roots of derivatives of the pulse, by Newton's method: fast from a good guess, or safe inside a bracket.</summary>
internal static class PulseRoot
{
    /// <summary>
    /// A Newton step this small is the last one [s]: the error falls with its square, and stays below 1e-9 s down to curves that bend
    /// within a millisecond.
    /// </summary>
    public const double LastStep = 1e-6;

    private const double Tolerance = 1e-10;

    /// <summary>An extremum (derivative 1), a steepest point (2) or a point of largest curvature (3) near a guess.</summary>
    /// <param name="sum">The pulse, its own start included.</param>
    /// <param name="derivative">Which derivative is 0 there.</param>
    /// <param name="low">The root must lie above this, after the start [s].</param>
    /// <param name="high">And below this [s].</param>
    /// <param name="x">The guess; receives the root.</param>
    /// <param name="at">Receives the pulse at the last point but one, less than <see cref="LastStep"/> away.</param>
    /// <returns>Whether a root was found; none from that guess proves nothing.</returns>
    public static bool TryNear(PulseSum sum, int derivative, double low, double high, ref double x, out PulsePoint at)
    {
        at = default;
        for (int i = 0; i < 8 && x > low && x < high; i++)
        {
            at = At(sum, derivative, x);
            double step = Pick(at, derivative, out double slope) / slope;
            x -= step;
            if (Math.Abs(step) < LastStep)
            {
                return x > low && x < high;
            }
        }

        return false;
    }

    /// <summary>A root inside a bracket: a step that leaves the shrinking bracket becomes a halving.</summary>
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
        switch (derivative)
        {
            case 1:
                sum.At2(sum.OwnStartSeconds, x, out _, out at);
                return at;
            case 2:
                sum.At3(sum.OwnStartSeconds, x, out _, out at);
                return at;
            default:
                sum.At4(sum.OwnStartSeconds, x, out at);
                return at;
        }
    }

    private static double Pick(in PulsePoint at, int derivative, out double slope)
    {
        slope = derivative == 1 ? at.Curvature : derivative == 2 ? at.Jerk : at.JerkSlope;
        return derivative == 1 ? at.Slope : derivative == 2 ? at.Curvature : at.Jerk;
    }
}
