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
/// then the largest second derivative, the notch and the diastolic peak at once: Halley's method, and Newton's where there is no further
/// derivative. The landmarks of the beat before are the first guess. The earlier pulses are many and smooth: over short steps Taylor's polynomial stands for them.</para>
/// </remarks>
internal static class PulseNewton
{
    /// <summary>All earlier components are past their peak.</summary>
    public const double LeastYoungestX = 1;

    // For a scale of 1 [s]. What is left after a step falls with its square (start, largest second derivative) or its third power, that of the
    // minimum slowest, the more so the nearer it lies to the start: below 5e-9 s after these, but for a diastolic peak that hardly rises (2e-8 s).
    private const double LastNewtonStep = 2e-5;
    private const double LastMinimumStep = 5e-5;
    private const double LastMinimumShare = 0.005;
    private const double LastHalleyStep = 1e-4;

    // The shoulder only leads to notch and diastolic peak.
    private const double LastShoulderStep = 2e-3;
    private const int Rounds = 8;

    // Where earlier pulses bend less than this share of the largest bend, there is only the hump of the pulse's own wave.
    private const double LeastBend = 0.2;

    // Steps of the minimum from where its slope is at least this share of that of the earlier pulses go by powers of time.
    private const double FarSlope = 0.25;

    // How far Taylor's polynomial may reach, for a scale of 1 [s]: even where an earlier pulse is just past its peak, what it leaves out moves
    // no landmark by more than some 2e-9 s. Minimum, steepest point, peak, shoulder.
    private static Vector256<double> UpstrokeReach => Vector256.Create(4e-4, 3e-4, 8e-4, 2e-3);

    // Largest second derivative, notch, diastolic peak; the fourth stands for nothing.
    private static Vector256<double> RestReach => Vector256.Create(3e-5, 8e-4, 8e-4, 8e-4);

    /// <summary>Finds them.</summary>
    /// <param name="sum">The earlier beats and the own components.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="footSeconds">Where the foot by tangents shall be [s]; NaN when the start is given.</param>
    /// <param name="guess">Where to begin; receives what was found, if all was.</param>
    /// <param name="foot">Holds the start or a guess of it; receives what was found.</param>
    /// <returns>Whether it is an ordinary pulse, and all was found.</returns>
    public static bool TryFind(PulseSum sum, double scale, double footSeconds, ref PulseGuess guess, ref PulseFoot foot)
    {
        PulseGuess found = guess;
        bool isFound = sum.YoungestX >= LeastYoungestX
            && TryUpstroke(sum, scale, footSeconds, ref found, ref foot, out double half, out double earlierBend)
            && TryRest(sum, scale, half, earlierBend, ref found, ref foot);
        found.HasNotch = !double.IsNaN(foot.Notch);
        guess = isFound ? found : guess;
        return isFound;
    }

    private static bool TryUpstroke(
        PulseSum sum, double scale, double footSeconds, ref PulseGuess guess, ref PulseFoot foot, out double half, out double earlierBend)
    {
        bool isPlacing = !double.IsNaN(footSeconds);
        bool isFalling = !sum.IsAlone;
        double start = foot.StartSeconds;
        Vector256<double> offsets = Vector256.Create(isFalling ? guess.Minimum : 0, guess.Steepest, guess.Peak, guess.Shoulder) * scale;
        double steepestGuess = offsets[1];
        Vector256<double> most = Vector256.Create(0.04, 0.04, 0.04, 0.08) * scale;
        Vector256<double> last = Vector256.Create(LastMinimumStep, LastHalleyStep, LastHalleyStep, LastShoulderStep) * scale;
        Vector256<double> reach = UpstrokeReach * scale;

        // Extremes have no slope, the others no curvature.
        Vector256<double> isSteepest = Vector256.Create(0L, -1, 0, -1).AsDouble();
        Vector256<double> known = Vector256.Create(double.PositiveInfinity);
        PulsePoints earlierKnown = default;
        half = 0;
        earlierBend = 0;
        for (int i = 0; i < Rounds; i++)
        {
            PulsePoints earlier = Earlier(sum, offsets + Vector256.Create(start), reach, ref known, ref earlierKnown);
            PulsePoints all = earlier;
            sum.AddOwn4(offsets, ref all);
            Vector256<double> wrong = Vector256.ConditionalSelect(isSteepest, all.Curvature, all.Slope);
            Vector256<double> grows = Vector256.ConditionalSelect(isSteepest, all.Jerk, all.Curvature);
            Vector256<double> bends = Vector256.ConditionalSelect(isSteepest, all.JerkSlope, all.Jerk);
            double earlierFall = earlier.Slope[0];
            double steepSlope = all.Slope[1];
            if (!(steepSlope > 0 && grows[1] < 0 && (!isFalling || (grows[0] > 0 && earlierFall < 0))))
            {
                return false;
            }

            // For a fixed start, and per second by which the start moves.
            Vector256<double> steps = Halley(wrong, grows, bends);
            Vector256<double> follows = -Vector256.ConditionalSelect(isSteepest, earlier.Jerk, earlier.Curvature) / grows;
            if (!isFalling)
            {
                steps = steps.WithElement(0, 0);
                follows = follows.WithElement(0, 0);
            }
            else if (Math.Abs(wrong[0]) > -FarSlope * earlierFall)
            {
                steps = steps.WithElement(0, FarStep(offsets[0], wrong[0] - earlierFall, grows[0] - earlier.Curvature[0], earlierFall));
            }

            // The foot by tangents is stationary in both points: half of the step tells what a whole one does.
            double perSlope = 1 / steepSlope;
            double back = (all.Value[0] - all.Value[1]) * perSlope;
            double byLow = wrong[0] * perSlope;
            double bySteep = -back * wrong[1] * perSlope;
            double tangent = start + offsets[1] + back + (0.5 * ((byLow * steps[0]) + (bySteep * steps[1])));
            double startStep = 0;
            if (isPlacing)
            {
                double byStart = 1 + ((earlierFall - earlier.Slope[1] - (back * earlier.Curvature[1])) * perSlope);
                startStep = (footSeconds - tangent) / (byStart + (byLow * follows[0]) + (bySteep * follows[1]));
            }

            steps += follows * startStep;
            Vector256<double> size = Vector256.Abs(steps);
            if (!(Math.Abs(startStep) < most[0] && Vector256.LessThanAll(size, most)))
            {
                return false;
            }

            // A pulse rises from its start like the sixth power: the way to it is halved at most.
            bool isHalved = steps[0] < -0.5 * offsets[0];
            start += startStep;
            offsets += isHalved ? steps.WithElement(0, -0.5 * offsets[0]) : steps;
            bool isNearMinimum = size[0] <= LastMinimumShare * Math.Abs(offsets[0]);
            if (isNearMinimum && Math.Abs(startStep) < LastNewtonStep * scale && Vector256.LessThanAll(size, last))
            {
                foot.StartSeconds = start;
                foot.Minimum = offsets[0];
                foot.Steepest = offsets[1];
                foot.Peak = offsets[2];
                foot.TangentSeconds = isPlacing ? footSeconds : tangent;
                Vector256<double> value = all.Value + (all.Slope * steps * 0.5) + (earlier.Slope * startStep);
                foot.Low = value[0];
                foot.High = value[2];
                earlierBend = earlier.Curvature[0];

                // Where the wave rises at the shoulder, notch and diastolic peak lie about this far on either side.
                double slope = all.Slope[3] + (0.5 * wrong[3] * steps[3]);
                half = slope > 0 ? Math.Sqrt(-2 * slope / (grows[3] + (bends[3] * steps[3]))) : 0;
                Remember(foot, offsets[3], isFalling, scale, ref guess);
                return Math.Abs(foot.Steepest - steepestGuess) < most[0] && foot.IsInOrder && grows[2] < 0 && grows[3] < 0 && !double.IsNaN(half)
                    && offsets[3] > foot.Peak;
            }
        }

        return false;
    }

    private static void Remember(in PulseFoot foot, double shoulder, bool isFalling, double scale, ref PulseGuess guess)
    {
        double perScale = 1 / scale;
        guess.Tangent = (foot.TangentSeconds - foot.StartSeconds) * perScale;
        guess.Minimum = isFalling ? foot.Minimum * perScale : guess.Minimum;
        guess.Steepest = foot.Steepest * perScale;
        guess.Peak = foot.Peak * perScale;
        guess.Shoulder = shoulder * perScale;
    }

    private static bool TryRest(PulseSum sum, double scale, double half, double earlierBend, ref PulseGuess guess, ref PulseFoot foot)
    {
        double shoulder = guess.Shoulder * scale;
        double curved = guess.Curved * scale;
        bool hasNotch = half > 0;
        var offsets = Vector256.Create(curved, shoulder - (half * guess.NotchShare), shoulder + (half * guess.DiastolicShare), curved);
        var low = Vector256.Create(0, hasNotch ? foot.Peak : 0, hasNotch ? shoulder : 0, 0);
        var high = Vector256.Create(foot.Steepest, hasNotch ? shoulder : double.PositiveInfinity, double.PositiveInfinity, foot.Steepest);
        Vector256<double> last = Vector256.Create(LastNewtonStep, LastHalleyStep, LastHalleyStep, LastNewtonStep) * scale;
        Vector256<double> reach = RestReach * scale;
        Vector256<double> isCurved = Vector256.Create(-1L, 0, 0, -1).AsDouble();
        Vector256<double> isThere = hasNotch ? Vector256<double>.AllBitsSet : isCurved;
        Vector256<double> known = Vector256.Create(double.PositiveInfinity);
        PulsePoints earlierKnown = default;
        for (int i = 0; i < Rounds; i++)
        {
            PulsePoints all = Earlier(sum, offsets + Vector256.Create(foot.StartSeconds), reach, ref known, ref earlierKnown);
            sum.AddOwn4(offsets, ref all);

            // Halley's step is Newton's where no further derivative is known.
            Vector256<double> wrong = Vector256.ConditionalSelect(isCurved, all.Jerk, all.Slope);
            Vector256<double> grows = Vector256.ConditionalSelect(isCurved, all.JerkSlope, all.Curvature);
            Vector256<double> steps = Halley(wrong, grows, Vector256.AndNot(all.Jerk, isCurved)) & isThere;
            offsets += steps;

            // Steps that lead elsewhere, NaN included, leave the pulse to the search.
            if (!(Vector256.GreaterThanAll(offsets, low) && Vector256.LessThanAll(offsets, high)))
            {
                return false;
            }

            if (Vector256.LessThanAll(Vector256.Abs(steps), last))
            {
                bool isSeen = hasNotch && offsets[2] < foot.Peak + (PulseTail.LimitSeconds * scale)
                    && all.Value[2] - all.Value[1] >= PulseTail.LeastRise * (foot.High - foot.Low);
                foot.Curved = offsets[0];
                foot.Notch = isSeen ? offsets[1] : double.NaN;
                foot.Diastolic = isSeen ? offsets[2] : double.NaN;
                guess.Curved = offsets[0] / scale;
                guess.NotchShare = hasNotch ? (shoulder - offsets[1]) / half : guess.NotchShare;
                guess.DiastolicShare = hasNotch ? (offsets[2] - shoulder) / half : guess.DiastolicShare;
                return grows[0] < 0 && Math.Abs(earlierBend) < LeastBend * all.Curvature[0] && (!hasNotch || (grows[1] > 0 && grows[2] < 0));
            }
        }

        return false;
    }

    // The earlier pulses at four times, from where they were added up last if that is near.
    private static PulsePoints Earlier(
        PulseSum sum, Vector256<double> seconds, Vector256<double> reach, ref Vector256<double> known, ref PulsePoints sumKnown)
    {
        Vector256<double> by = seconds - known;
        if (Vector256.LessThanAll(Vector256.Abs(by), reach))
        {
            return sumKnown.Moved(by);
        }

        known = seconds;
        sum.Earlier4(seconds, out sumKnown);
        return sumKnown;
    }

    private static Vector256<double> Halley(Vector256<double> f, Vector256<double> slope, Vector256<double> bend)
    {
        Vector256<double> twice = slope + slope;
        return -(f * twice) / ((slope * twice) - (f * bend));
    }

    // The own slope grows like a power of the time: on a logarithmic scale one step leads nearly to where it balances the earlier fall.
    private static double FarStep(double minimum, double ownSlope, double ownCurvature, double earlierSlope)
    {
        double power = minimum * ownCurvature / ownSlope;
        return minimum * (PortableMath.Exp(PortableMath.Log(-earlierSlope / ownSlope) / power) - 1);
    }
}
