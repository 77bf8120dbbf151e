// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Ecg;

/// <summary>Finds the true R peak: the largest absolute deviation from the level at QRS onset, inside the QRS, on the clean voltage.</summary>
/// <remarks>
/// Two ways to the same answer. Mostly bounds prove that the hump on R's centre is the only place that can hold the peak, and Newton's
/// method goes there in two or three steps. Otherwise (small or missing R, deep S, notched wide QRS, a P or T inside the QRS) the QRS is
/// looked over at steps of 0.3 standard deviations of its narrowest wave, and every hump that may be the highest of its sign is refined.
/// </remarks>
internal static class RPeakSolver
{
    /// <summary>Most neighbours that a beat can have.</summary>
    public const int MostNeighbours = 8;

    private const double AmbiguousShare = 0.8;

    // Within this many standard deviations of R's centre its own curvature is at least 0.4 of that at its peak, and outside R is below
    // 0.783 of its height: (1 − x²)·e^(−x²/2) and e^(−x²/2) at 0.7.
    private const double Core = 0.7;
    private const double CoreCurvature = 0.39;
    private const double OutsideCore = 0.7828;
    private const double LastStep = 1e-6;

    /// <summary>Solves for the R peak of a beat.</summary>
    /// <param name="neighbours">Other events whose waves may reach the QRS, at most <see cref="MostNeighbours"/>.</param>
    /// <param name="own">Waves of the beat.</param>
    /// <param name="activity">What follows no beat.</param>
    public static RPeak Solve(ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own, EcgActivity activity)
    {
        double onset = own[EcgBeat.Q].OnsetSeconds;
        double end = own[EcgBeat.S].EndSeconds;
        Span<double> space = stackalloc double[ReachingWaves.Room(EcgBeat.Count * (neighbours.Length + 1))];
        var waves = new ReachingWaves(space, neighbours, own, activity, onset, end);
        double level = waves.At(onset, out _, out _);
        return TryCore(waves, own[EcgBeat.R], level, onset, end, out RPeak peak) ? peak : RPeakSearch.Solve(waves, own, level, onset, end);
    }

    /// <summary>Whether the runner-up of the other sign is too near.</summary>
    /// <param name="larger">The larger deviation [mV].</param>
    /// <param name="smaller">The smaller one [mV].</param>
    public static bool IsAmbiguous(double larger, double smaller) => smaller > AmbiguousShare * larger;

    private static bool TryCore(in ReachingWaves waves, in EcgWave r, double level, double onset, double end, out RPeak peak)
    {
        peak = default;
        double sign = r.Millivolts > 0 ? 1 : -1;
        double height = Math.Abs(r.Millivolts);
        double perSigma = 1 / r.SigmaSeconds;
        double same = waves.ActivityMillivolts;
        double other = waves.ActivityMillivolts;
        double curvature = waves.ActivityCurvature;
        double core = Core * r.SigmaSeconds;
        if (height == 0)
        {
            return false;
        }

        for (int i = 1; i < waves.Count; i++)
        {
            ReachingWaves.Reaching wave = waves[i];
            double amount = Math.Abs(wave.Millivolts);
            double inQrs = amount * Bound(Math.Max(0, Math.Max(onset - wave.Centre, wave.Centre - end)) * wave.PerSigma);
            if (wave.Millivolts * sign > 0)
            {
                same += inQrs;
            }
            else
            {
                other += inQrs;
            }

            // The second derivative of a Gaussian is largest at its centre, 0.446 of that from the square root of 3 on.
            double away = Math.Max(0, Math.Abs(wave.Centre - r.CentreSeconds) - core) * wave.PerSigma;
            double share = away < 1.7320508075688774 ? 1 : Math.Min(0.4463, ((away * away) + 1) * Bound(away));
            curvature += amount * share * (wave.PerSigma * wave.PerSigma);
        }

        double fromLevel = level * sign;
        if (curvature >= CoreCurvature * height * perSigma * perSigma || !TryNewton(waves, r, core, out double time, out double value))
        {
            return false;
        }

        double best = (value - level) * sign;
        if (time < onset || time > end || (OutsideCore * height) + same - fromLevel >= best || other + fromLevel > AmbiguousShare * best)
        {
            return false;
        }

        peak = new RPeak(time, value, IsAmbiguous: false);
        return true;
    }

    // No smaller than e^(−x²/2) beyond x, in steps that need no exponential.
    private static double Bound(double x) => x < 1 ? 1 : x < 2 ? 0.6066 : x < 2.7 ? 0.1354 : x < 3.5 ? 0.0262 : x < 5 ? 0.0022 : 4e-6;

    private static bool TryNewton(in ReachingWaves waves, in EcgWave r, double limit, out double time, out double value)
    {
        time = r.CentreSeconds;
        value = 0;
        for (int i = 0; i < 12; i++)
        {
            value = waves.At(time, out double slope, out double curvature);
            double step = -slope / curvature;
            time += step;
            if (!(Math.Abs(time - r.CentreSeconds) <= limit))
            {
                return false;
            }

            // Newton's next step is the square of this one in parts of a width: some 1e-10 s.
            if (Math.Abs(step) < LastStep)
            {
                value += step * (slope + (0.5 * step * curvature));
                return true;
            }
        }

        return false;
    }
}
