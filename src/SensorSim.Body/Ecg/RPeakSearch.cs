// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Ecg;

/// <summary>The R peak where any place of the QRS may hold it.</summary>
internal static class RPeakSearch
{
    private const double StepSigmas = 0.3;
    private const int MostSteps = 400;

    /// <summary>Looks the QRS over.</summary>
    public static RPeak Solve(in ReachingWaves waves, in EcgBeat own, double level, double onset, double end)
    {
        double narrowest = Math.Min(own[EcgBeat.Q].SigmaSeconds, Math.Min(own[EcgBeat.R].SigmaSeconds, own[EcgBeat.S].SigmaSeconds));
        for (int i = 0; i < waves.Count; i++)
        {
            ReachingWaves.Reaching wave = waves[i];

            // Another beat's wave may be the narrower one, where one QRS runs into the next.
            narrowest = wave.Centre > onset && wave.Centre < end ? Math.Min(narrowest, 1 / wave.PerSigma) : narrowest;
        }

        int steps = (int)Math.Min(MostSteps, Math.Ceiling((end - onset) / (StepSigmas * narrowest)));
        Span<double> deviation = stackalloc double[MostSteps + 1];
        double width = (end - onset) / steps;
        for (int i = 0; i <= steps; i++)
        {
            deviation[i] = waves.At(onset + (i * width), out _, out _) - level;
        }

        Side up = Highest(waves, deviation[..(steps + 1)], level, onset, width, 1);
        Side down = Highest(waves, deviation[..(steps + 1)], level, onset, width, -1);
        Side best = up.Deviation >= down.Deviation ? up : down;
        if (best.Deviation == 0)
        {
            // No QRS at all.
            return new RPeak(own[EcgBeat.R].CentreSeconds, waves.At(own[EcgBeat.R].CentreSeconds, out _, out _), IsAmbiguous: false);
        }

        double signed = up.Deviation >= down.Deviation ? up.Deviation : -down.Deviation;
        return new RPeak(
            best.Seconds,
            level + signed,
            RPeakSolver.IsAmbiguous(best.Deviation, Math.Min(up.Deviation, down.Deviation)));
    }

    // The highest place of one sign: every hump that comes near the highest step is refined. Between steps a hump rises less than a tenth
    // above the higher one of its two steps.
    private static Side Highest(in ReachingWaves waves, ReadOnlySpan<double> deviation, double level, double onset, double width, double sign)
    {
        double highestStep = 0;
        foreach (double d in deviation)
        {
            highestStep = Math.Max(highestStep, sign * d);
        }

        Side best = default;
        int last = deviation.Length - 1;
        for (int i = 0; i <= last; i++)
        {
            double here = sign * deviation[i];
            bool isHump = (i == 0 || here >= sign * deviation[i - 1]) && (i == last || here >= sign * deviation[i + 1]);
            if (!isHump || here < 0.9 * highestStep || here <= 0)
            {
                continue;
            }

            Side refined = Refine(waves, level, onset + (Math.Max(0, i - 1) * width), onset + (Math.Min(last, i + 1) * width), sign);
            best = refined.Deviation > best.Deviation ? refined : best;
            best = here > best.Deviation ? new Side(onset + (i * width), here) : best;
        }

        return best;
    }

    // Newton on the slope inside a shrinking bracket: left of the top the slope has the sign of the hump, right of it the other one. Where
    // the top lies at an end of the QRS, the bracket closes on that end.
    private static Side Refine(in ReachingWaves waves, double level, double left, double right, double sign)
    {
        double time = 0.5 * (left + right);
        double value = 0;
        for (int i = 0; i < 60; i++)
        {
            value = waves.At(time, out double slope, out double curvature);
            if (sign * slope > 0)
            {
                left = time;
            }
            else
            {
                right = time;
            }

            double next = time - (slope / curvature);
            bool isInside = next > left && next < right && sign * curvature < 0;
            next = isInside ? next : 0.5 * (left + right);
            double step = next - time;
            time = next;
            if (Math.Abs(step) < 1e-9)
            {
                break;
            }
        }

        value = waves.At(time, out _, out _);
        return new Side(time, sign * (value - level));
    }

    private readonly record struct Side(double Seconds, double Deviation);
}
