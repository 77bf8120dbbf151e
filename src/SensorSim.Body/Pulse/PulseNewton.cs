// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Pulse;

/// <summary>All landmarks of an ordinary pulse, four instants at a time.</summary>
/// <remarks>
/// <para>Ordinary: what is left of earlier pulses only falls, and bends little. Then there is one minimum, one steepest point, one largest
/// second derivative, and a notch only if the slope after the peak gets positive where it is largest. Everything else is left to
/// <see cref="PulseSearch"/>.</para>
/// <para>First the start, the minimum, the steepest point, the systolic peak and the shoulder (largest slope after the peak) at once;
/// then the largest second derivative, the notch and the diastolic peak at once. Newton's method in three unknowns, Halley's in one.</para>
/// </remarks>
internal static class PulseNewton
{
    /// <summary>All earlier components are past their peak.</summary>
    public const double LeastYoungestX = 1;

    // What is left after a step falls with its square (Newton) or its third power (Halley): below 1e-7 s after these.
    private const double LastNewtonStep = 2e-5;
    private const double LastHalleyStep = 1e-4;

    // The shoulder only leads to notch and diastolic peak.
    private const double LastShoulderStep = 2e-3;
    private const int Rounds = 8;

    // First guess of the minimum, as a share of the forward wave's time to its peak.
    private const double MinimumGuess = 0.135;

    // Where earlier pulses bend less than this share of the largest bend, there is only the hump of the pulse's own wave.
    private const double LeastBend = 0.2;

    /// <summary>Finds them.</summary>
    /// <param name="sum">The earlier beats and the own components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="footSeconds">Where the foot by tangents shall be [s]; NaN when the start is given.</param>
    /// <param name="foot">Holds the start or a guess of it; receives what was found.</param>
    /// <returns>Whether it is an ordinary pulse, and all was found.</returns>
    public static bool TryFind(PulseSum sum, in PulseContour contour, double scale, double footSeconds, ref PulseFoot foot)
    {
        return sum.YoungestX >= LeastYoungestX
            && TryUpstroke(sum, contour, scale, footSeconds, ref foot, out double shoulder, out double half, out double earlierBend)
            && TryRest(sum, contour, scale, shoulder, half, earlierBend, ref foot);
    }

    private static bool TryUpstroke(
        PulseSum sum,
        in PulseContour contour,
        double scale,
        double footSeconds,
        ref PulseFoot foot,
        out double shoulder,
        out double half,
        out double earlierBend)
    {
        bool isPlacing = !double.IsNaN(footSeconds);
        bool isFalling = !sum.IsAlone;
        double most = 0.04 * scale;
        double start = foot.StartSeconds;
        double steepestGuess = contour.SteepestGuess * scale;
        double steepest = steepestGuess;
        double minimum = isFalling ? MinimumGuess * contour.ForwardToPeak * scale : 0;
        double peak = contour.PeakGuess * scale;
        shoulder = contour.ShoulderGuess * scale;
        half = 0;
        earlierBend = 0;
        for (int i = 0; i < Rounds; i++)
        {
            sum.At4(start, Vector256.Create(minimum, steepest, peak, shoulder), out PulsePoints earlier, out PulsePoints all);
            PulsePoint low = all[0];
            PulsePoint steep = all[1];
            if (!(steep.Slope > 0 && steep.Jerk < 0 && (!isFalling || (low.Curvature > 0 && earlier.Slope[0] < 0))))
            {
                return false;
            }

            // Steps of minimum and steepest point: for a fixed start, and per second by which the start moves.
            double perSlope = 1 / steep.Slope;
            double perJerk = 1 / steep.Jerk;
            double lowStep = 0;
            double lowFollows = 0;
            if (isFalling)
            {
                double perBend = 1 / low.Curvature;
                lowStep = i == 0 ? FirstStep(minimum, low.Slope - earlier.Slope[0], low.Curvature - earlier.Curvature[0], earlier.Slope[0]) : -low.Slope * perBend;
                lowFollows = -earlier.Curvature[0] * perBend;
            }

            double steepStep = -steep.Curvature * perJerk;
            double steepFollows = -earlier.Jerk[1] * perJerk;
            double back = (low.Value - steep.Value) * perSlope;
            double byLow = low.Slope * perSlope;
            double bySteep = -back * steep.Curvature * perSlope;
            double tangent = start + steepest + back;
            double startStep = 0;
            if (isPlacing)
            {
                double byStart = 1 + ((earlier.Slope[0] - earlier.Slope[1] - (back * earlier.Curvature[1])) * perSlope);
                double whole = byStart + (byLow * lowFollows) + (bySteep * steepFollows);
                startStep = (footSeconds - tangent - (byLow * lowStep) - (bySteep * steepStep)) / whole;
            }

            lowStep += lowFollows * startStep;
            steepStep += steepFollows * startStep;
            PulsePoint top = all[2];
            PulsePoint side = all[3];
            double peakStep = Halley(top.Slope, top.Curvature, top.Jerk);
            double shoulderStep = Halley(side.Curvature, side.Jerk, side.JerkSlope);
            if (!(Math.Max(Math.Max(Math.Abs(startStep), Math.Abs(steepStep)), Math.Max(Math.Abs(lowStep), Math.Abs(peakStep))) < most
                && Math.Abs(shoulderStep) < 2 * most))
            {
                return false;
            }

            start += startStep;
            steepest += steepStep;
            peak += peakStep;
            shoulder += shoulderStep;

            // A pulse rises from its start like the sixth power: the way to it is halved at most.
            minimum += Math.Max(lowStep, -0.5 * minimum);
            if (Math.Max(Math.Max(Math.Abs(startStep), Math.Abs(steepStep)), Math.Abs(lowStep)) < LastNewtonStep
                && Math.Abs(peakStep) < LastHalleyStep && Math.Abs(shoulderStep) < LastShoulderStep)
            {
                foot.StartSeconds = start;
                foot.Minimum = minimum;
                foot.Steepest = steepest;
                foot.Peak = peak;

                // The foot by tangents does not move with small errors of the two points: it is stationary in both.
                foot.TangentSeconds = isPlacing ? footSeconds : tangent + (0.5 * ((byLow * lowStep) + (bySteep * steepStep)));
                foot.Low = low.Value + (0.5 * low.Slope * lowStep) + (earlier.Slope[0] * startStep);
                foot.High = top.Value + (0.5 * top.Slope * peakStep) + (earlier.Slope[2] * startStep);
                earlierBend = earlier.Curvature[0];

                // Where the wave rises at the shoulder, notch and diastolic peak lie about this far on either side.
                double slope = side.Slope + (0.5 * side.Curvature * shoulderStep);
                half = slope > 0 ? Math.Sqrt(-2 * slope / side.Jerk) : 0;
                return Math.Abs(steepest - steepestGuess) < most && foot.IsInOrder && top.Curvature < 0 && side.Jerk < 0 && shoulder > peak;
            }
        }

        return false;
    }

    private static bool TryRest(
        PulseSum sum, in PulseContour contour, double scale, double shoulder, double half, double earlierBend, ref PulseFoot foot)
    {
        double curved = contour.CurvatureGuess * scale;
        bool hasNotch = half > 0;
        double notch = shoulder - half;
        double diastolic = shoulder + half;
        for (int i = 0; i < Rounds; i++)
        {
            sum.At4(foot.StartSeconds, Vector256.Create(curved, notch, diastolic, curved), out _, out PulsePoints all);
            PulsePoint bend = all[0];
            PulsePoint bottom = all[1];
            PulsePoint top = all[2];
            double bendStep = -bend.Jerk / bend.JerkSlope;
            double notchStep = hasNotch ? Halley(bottom.Slope, bottom.Curvature, bottom.Jerk) : 0;
            double topStep = hasNotch ? Halley(top.Slope, top.Curvature, top.Jerk) : 0;
            curved += bendStep;
            notch += notchStep;
            diastolic += topStep;

            // Steps that lead elsewhere, NaN included, leave the pulse to the search.
            if (!(curved > 0 && curved < foot.Steepest && (!hasNotch || (notch > foot.Peak && notch < shoulder && diastolic > shoulder))))
            {
                return false;
            }

            if (Math.Abs(bendStep) < LastNewtonStep && Math.Max(Math.Abs(notchStep), Math.Abs(topStep)) < LastHalleyStep)
            {
                bool isSeen = hasNotch && diastolic < foot.Peak + (PulseTail.LimitSeconds * scale)
                    && top.Value - bottom.Value >= PulseTail.LeastRise * (foot.High - foot.Low);
                foot.Curved = curved;
                foot.Notch = isSeen ? notch : double.NaN;
                foot.Diastolic = isSeen ? diastolic : double.NaN;
                return bend.JerkSlope < 0 && Math.Abs(earlierBend) < LeastBend * bend.Curvature
                    && (!hasNotch || (bottom.Curvature > 0 && top.Curvature < 0));
            }
        }

        return false;
    }

    private static double Halley(double f, double slope, double bend) => -2 * f * slope / ((2 * slope * slope) - (f * bend));

    // The own slope grows like a power of the time: on a logarithmic scale one step leads nearly to where it balances the earlier fall.
    private static double FirstStep(double minimum, double ownSlope, double ownCurvature, double earlierSlope)
    {
        double power = minimum * ownCurvature / ownSlope;
        return minimum * (PortableMath.Exp(PortableMath.Log(-earlierSlope / ownSlope) / power) - 1);
    }
}
