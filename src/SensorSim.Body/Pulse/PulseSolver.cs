// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Finds the landmarks of a pulse on its continuous waveform, and places a pulse so that its foot falls where wanted.</summary>
/// <remarks>Derivatives are analytic; every root is bracketed and refined to below 1e-9 s.</remarks>
internal static class PulseSolver
{
    private const double Tolerance = 1e-10;
    private const int Rounds = 400;

    private enum Derivative
    {
        First,
        Second,
        Third,
    }

    /// <summary>Places a pulse so that its foot by tangents falls at a time, and solves for its landmarks.</summary>
    /// <param name="sum">The earlier beats; receives the beat's own components.</param>
    /// <param name="footSeconds">Wanted foot by tangents [s].</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="height">Height of the forward wave.</param>
    /// <param name="beat">Receives the components.</param>
    public static PulseLandmarks Place(PulseSum sum, double footSeconds, double scale, double height, out PulseBeat beat)
    {
        double start = footSeconds - (PulseShape.FootGuessSeconds * scale);
        double steepest = start + (PulseShape.SteepestGuessSeconds * scale);
        double minimum = start + (PulseShape.MinimumGuessSeconds * scale);
        double foot = 0;
        beat = default;

        // The foot follows the start almost one to one: each round shrinks the miss by an order or two. Only where the pulse rides on
        // an earlier one, much sooner after it than the mean interval, does it take many rounds, or has it no foot at all.
        bool isPlaced = false;
        for (int i = 0; i < Rounds; i++)
        {
            beat = PulseShape.Lay(start, scale, height);
            sum.SetOwn(beat);
            foot = TangentFoot(sum, start, scale, ref minimum, ref steepest);
            double miss = footSeconds - foot;
            isPlaced = Math.Abs(miss) < 1e-9;
            if (isPlaced)
            {
                break;
            }

            start += miss;
            steepest += miss;
            minimum += miss;
        }

        return Landmarks(sum, start, scale, foot, minimum, steepest, isPlaced);
    }

    /// <summary>Solves for the landmarks of a pulse that starts at a time.</summary>
    /// <param name="sum">The earlier beats; receives the beat's own components.</param>
    /// <param name="start">Where the pulse starts [s].</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="height">Height of the forward wave.</param>
    public static PulseLandmarks Solve(PulseSum sum, double start, double scale, double height)
    {
        sum.SetOwn(PulseShape.Lay(start, scale, height));
        double steepest = start + (PulseShape.SteepestGuessSeconds * scale);
        double minimum = start + (PulseShape.MinimumGuessSeconds * scale);
        double foot = TangentFoot(sum, start, scale, ref minimum, ref steepest);
        return Landmarks(sum, start, scale, foot, minimum, steepest, isPlaced: true);
    }

    private static PulseLandmarks Landmarks(
        PulseSum sum, double start, double scale, double foot, double minimum, double steepest, bool isPlaced)
    {
        double curvature = LargestCurvature(sum, minimum, steepest);
        double late = steepest + (0.3 * scale);
        double peak = Root(sum, Derivative.First, 1, steepest, late, start + (PulseShape.PeakGuessSeconds * scale));
        double size = sum.At(peak).Value - sum.At(minimum).Value;
        bool hasFoot = isPlaced && minimum < foot && foot < steepest && minimum < curvature && curvature < steepest && steepest < peak;
        return new PulseLandmarks(minimum, foot, curvature, steepest, peak, size, hasFoot);
    }

    private static double TangentFoot(PulseSum sum, double start, double scale, ref double minimum, ref double steepest)
    {
        double middle = start + (PulseShape.SteepestGuessSeconds * scale);
        double reach = 0.05 * scale;
        steepest = Root(sum, Derivative.Second, 1, middle - reach, middle + reach, steepest);

        // With nothing left of earlier beats the pulse never falls before its start: that is then the minimum.
        minimum = sum.At(start).Slope < 0 ? Root(sum, Derivative.First, -1, start, steepest, minimum) : start;
        PulsePoint at = sum.At(steepest);
        return steepest + ((sum.At(minimum).Value - at.Value) / at.Slope);
    }

    // There may be more than one hump of the second derivative: a coarse look finds the largest, a root of the third refines it.
    private static double LargestCurvature(PulseSum sum, double minimum, double steepest)
    {
        const int Parts = 8;
        double step = (steepest - minimum) / Parts;
        int best = 1;
        double largest = double.MinValue;
        for (int i = 1; i < Parts; i++)
        {
            double curvature = sum.At(minimum + (i * step)).Curvature;
            if (curvature > largest)
            {
                largest = curvature;
                best = i;
            }
        }

        double middle = minimum + (best * step);
        return Root(sum, Derivative.Third, 1, middle - step, middle + step, middle);
    }

    // Newton inside a shrinking bracket; a step that leaves the bracket becomes a halving. `sign` is the sign at `low`.
    private static double Root(PulseSum sum, Derivative which, int sign, double low, double high, double guess)
    {
        double x = guess > low && guess < high ? guess : 0.5 * (low + high);
        for (int i = 0; i < 80; i++)
        {
            double f = Pick(sum.At(x), which, out double slope);
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

            if (!(next > low && next < high))
            {
                next = 0.5 * (low + high);
            }

            x = next;
            if (high - low < Tolerance)
            {
                break;
            }
        }

        return x;
    }

    private static double Pick(in PulsePoint at, Derivative which, out double slope)
    {
        switch (which)
        {
            case Derivative.First:
                slope = at.Curvature;
                return at.Slope;
            case Derivative.Second:
                slope = at.Jerk;
                return at.Curvature;
            default:
                slope = at.JerkSlope;
                return at.Jerk;
        }
    }
}
