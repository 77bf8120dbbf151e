// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Ecg;

/// <summary>Finds the true R peak: the largest absolute deviation from the level before the QRS, inside it, on the clean voltage.</summary>
internal static class RPeakSolver
{
    private const double AmbiguousShare = 0.8;

    /// <summary>Solves for the R peak of a beat.</summary>
    /// <param name="before">Waves of the beat before.</param>
    /// <param name="own">Waves of the beat.</param>
    /// <param name="after">Waves of the beat after.</param>
    public static RPeak Solve(in EcgBeat before, in EcgBeat own, in EcgBeat after)
    {
        double onset = own[EcgBeat.Q].OnsetSeconds;
        double end = own[EcgBeat.S].EndSeconds;
        double level = Voltage(before, own, after, onset, out _, out _);
        double bestTime = own[EcgBeat.R].CentreSeconds;
        double best = 0;
        double largestUp = 0;
        double largestDown = 0;
        for (int wave = EcgBeat.Q; wave <= EcgBeat.S; wave++)
        {
            if (!TryExtremum(before, own, after, own[wave], onset, end, out double time, out double value))
            {
                continue;
            }

            double deviation = value - level;
            largestUp = Math.Max(largestUp, deviation);
            largestDown = Math.Max(largestDown, -deviation);
            if (Math.Abs(deviation) > Math.Abs(best))
            {
                best = deviation;
                bestTime = time;
            }
        }

        bool isAmbiguous = Math.Min(largestUp, largestDown) > AmbiguousShare * Math.Max(largestUp, largestDown);
        return new RPeak(bestTime, best + level, isAmbiguous);
    }

    /// <summary>Clean voltage with its derivatives: the beat's own waves and those of its neighbours.</summary>
    internal static double Voltage(
        in EcgBeat before, in EcgBeat own, in EcgBeat after, double seconds, out double slope, out double curvature)
    {
        double value = 0;
        slope = 0;
        curvature = 0;
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            before[i].Accumulate(seconds, ref value, ref slope, ref curvature);
            own[i].Accumulate(seconds, ref value, ref slope, ref curvature);
            after[i].Accumulate(seconds, ref value, ref slope, ref curvature);
        }

        return value;
    }

    // Newton on the slope. A step is at most a quarter of the wave's width, so that the search stays on its own hump; where the
    // curvature is not that of a hump of the wave's sign, it walks towards the top instead.
    private static bool TryExtremum(
        in EcgBeat before, in EcgBeat own, in EcgBeat after, in EcgWave wave, double onset, double end, out double time, out double value)
    {
        time = wave.CentreSeconds;
        value = 0;
        double limit = 0.25 * wave.SigmaSeconds;
        for (int i = 0; i < 40 && wave.Millivolts != 0; i++)
        {
            value = Voltage(before, own, after, time, out double slope, out double curvature);
            bool isHump = wave.Millivolts > 0 ? curvature < 0 : curvature > 0;
            double step = isHump
                ? Math.Max(-limit, Math.Min(limit, -slope / curvature))
                : Math.CopySign(limit, wave.Millivolts > 0 ? slope : -slope);
            time += step;
            if (time < onset || time > end)
            {
                return false;
            }

            if (Math.Abs(step) < 1e-10)
            {
                return true;
            }
        }

        return false;
    }
}
