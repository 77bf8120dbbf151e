// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pulse;

/// <summary>Start, minimum and steepest point of an ordinary pulse at once, by Newton's method in three unknowns.</summary>
/// <remarks>
/// Ordinary: what is left of earlier pulses only falls, so that there is one minimum and one steepest point. Everything else is left to
/// <see cref="PulseFootSearch"/>.
/// </remarks>
internal static class PulseFootNewton
{
    // All earlier components are past their peak.
    private const double LeastYoungestX = 1;
    private const int Rounds = 8;

    // e^6, from the forward wave (x·e^(1−x))^6.
    private const double ESixth = 403.4287934927351;

    /// <summary>Finds them.</summary>
    /// <param name="sum">The earlier beats and the own components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="forward">The own forward wave.</param>
    /// <param name="footSeconds">Where the foot by tangents shall be [s]; NaN when the start is given.</param>
    /// <param name="foot">Holds the start or a guess of it; receives what was found.</param>
    public static bool TryFind(PulseSum sum, in PulseContour contour, double scale, in PulseWave forward, double footSeconds, ref PulseFoot foot)
    {
        if (sum.YoungestX < LeastYoungestX)
        {
            return false;
        }

        bool isPlacing = !double.IsNaN(footSeconds);
        double most = 0.04 * scale;
        double start = foot.StartSeconds;
        double steepest = contour.SteepestGuess * scale;
        double minimum = MinimumGuess(sum, start, 0.25 * steepest, forward);
        double isFalling = minimum == 0 ? 0 : 1;
        for (int i = 0; i < Rounds; i++)
        {
            sum.At2(start, minimum, out PulsePoint earlierLow, out PulsePoint low);
            sum.At3(start, steepest, out PulsePoint earlierSteep, out PulsePoint steep);
            if (!(steep.Slope > 0 && steep.Jerk < 0 && (low.Curvature > 0 || isFalling == 0)))
            {
                return false;
            }

            // Steps of minimum and steepest point: for a fixed start, and per second by which the start moves.
            double perSlope = 1 / steep.Slope;
            double perJerk = 1 / steep.Jerk;
            double lowStep = isFalling == 0 ? 0 : -low.Slope / low.Curvature;
            double lowFollows = isFalling == 0 ? 0 : -earlierLow.Curvature / low.Curvature;
            double steepStep = -steep.Curvature * perJerk;
            double steepFollows = -earlierSteep.Jerk * perJerk;
            double back = (low.Value - steep.Value) * perSlope;
            double byLow = low.Slope * perSlope;
            double bySteep = -back * steep.Curvature * perSlope;
            double tangent = start + steepest + back;
            double startStep = 0;
            if (isPlacing)
            {
                double byStart = 1 + ((earlierLow.Slope - earlierSteep.Slope - (back * earlierSteep.Curvature)) * perSlope);
                double all = byStart + (byLow * lowFollows) + (bySteep * steepFollows);
                startStep = (footSeconds - tangent - (byLow * lowStep) - (bySteep * steepStep)) / all;
            }

            lowStep += lowFollows * startStep;
            steepStep += steepFollows * startStep;
            if (!(Math.Abs(startStep) < most && Math.Abs(steepStep) < most && Math.Abs(lowStep) < most))
            {
                return false;
            }

            start += startStep;
            steepest += steepStep;

            // A pulse rises from its start like the sixth power: the way to it is halved at most.
            minimum += Math.Max(lowStep, -0.5 * minimum);
            if (Math.Abs(startStep) < PulseRoot.LastStep && Math.Abs(steepStep) < PulseRoot.LastStep && Math.Abs(lowStep) < PulseRoot.LastStep)
            {
                foot.StartSeconds = start;
                foot.Minimum = minimum;
                foot.Steepest = steepest;
                foot.TangentSeconds = isPlacing ? footSeconds : tangent + (byLow * lowStep) + (bySteep * steepStep);
                foot.Value = low.Value + (0.5 * low.Slope * lowStep) + (earlierLow.Slope * startStep);
                return Math.Abs(steepest - (contour.SteepestGuess * scale)) < 2 * most && foot.IsInOrder;
            }
        }

        return false;
    }

    // Where the forward wave, (x·e^(1−x))^6 with the slope 6/τ·h·(1 − x)·e^6·x^5·e^(−6x), balances the fall of the earlier pulses.
    private static double MinimumGuess(PulseSum sum, double start, double offset, in PulseWave forward)
    {
        if (sum.IsAlone)
        {
            return 0;
        }

        sum.At2(start, offset, out PulsePoint earlier, out _);
        if (!(earlier.Slope < 0))
        {
            return 0;
        }

        double balance = -earlier.Slope * forward.ToPeakSeconds / (6 * ESixth * forward.Height);
        double y = PortableMath.Pow(balance, 0.2);
        double x = y * (1 + (y * (1.4 + (3 * y))));
        return forward.ToPeakSeconds * Math.Min(0.5, x);
    }
}
