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
    private const double MinimumGuess = 0.135;

    /// <summary>Finds them.</summary>
    /// <param name="sum">The earlier beats and the own components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="footSeconds">Where the foot by tangents shall be [s]; NaN when the start is given.</param>
    /// <param name="foot">Holds the start or a guess of it; receives what was found.</param>
    public static bool TryFind(PulseSum sum, in PulseContour contour, double scale, double footSeconds, ref PulseFoot foot)
    {
        if (sum.YoungestX < LeastYoungestX)
        {
            return false;
        }

        bool isPlacing = !double.IsNaN(footSeconds);
        bool isFalling = !sum.IsAlone;
        double most = 0.04 * scale;
        double start = foot.StartSeconds;
        double steepestGuess = contour.SteepestGuess * scale;
        double steepest = steepestGuess;
        double minimum = isFalling ? MinimumGuess * contour.ForwardToPeak * scale : 0;
        for (int i = 0; i < Rounds; i++)
        {
            sum.At3(start, minimum, out PulsePoint earlierLow, out PulsePoint low);
            sum.At3(start, steepest, out PulsePoint earlierSteep, out PulsePoint steep);
            if (!(steep.Slope > 0 && steep.Jerk < 0 && (!isFalling || (low.Curvature > 0 && earlierLow.Slope < 0))))
            {
                return false;
            }

            // Steps of minimum and steepest point: for a fixed start, and per second by which the start moves.
            double perSlope = 1 / steep.Slope;
            double perJerk = 1 / steep.Jerk;
            double lowStep = !isFalling ? 0 : i == 0 ? FirstStep(minimum, earlierLow, low) : -low.Slope / low.Curvature;
            double lowFollows = !isFalling ? 0 : -earlierLow.Curvature / low.Curvature;
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
            if (Math.Max(Math.Max(Math.Abs(startStep), Math.Abs(steepStep)), Math.Abs(lowStep)) < PulseRoot.LastNewtonStep)
            {
                foot.StartSeconds = start;
                foot.Minimum = minimum;
                foot.Steepest = steepest;

                // The foot by tangents does not move with small errors of the two points: both are stationary in it.
                foot.TangentSeconds = isPlacing ? footSeconds : tangent + (0.5 * ((byLow * lowStep) + (bySteep * steepStep)));
                foot.Value = low.Value + (0.5 * low.Slope * lowStep) + (earlierLow.Slope * startStep);
                foot.EarlierCurvature = earlierLow.Curvature;
                return Math.Abs(steepest - steepestGuess) < 2 * most && foot.IsInOrder;
            }
        }

        return false;
    }

    // The own slope grows like a power of the time: on a logarithmic scale one step leads nearly to where it balances the earlier fall.
    private static double FirstStep(double minimum, in PulsePoint earlier, in PulsePoint sum)
    {
        double ownSlope = sum.Slope - earlier.Slope;
        double power = minimum * (sum.Curvature - earlier.Curvature) / ownSlope;
        return minimum * (PortableMath.Exp(PortableMath.Log(-earlier.Slope / ownSlope) / power) - 1);
    }
}
