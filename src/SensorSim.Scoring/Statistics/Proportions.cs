// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;

namespace SensorSim.Scoring.Statistics;

/// <summary>Two-sided 95 % confidence intervals of a proportion of independent trials.</summary>
/// <remarks>
/// Source: Newcombe RG, Stat Med 17:857-872, 1998. Beats of one record are not independent: over several records or seeds,
/// resample whole records instead.
/// </remarks>
public static class Proportions
{
    /// <summary>The 97.5 % quantile of the standard normal distribution.</summary>
    public const double Z95 = 1.959964;

    /// <summary>Wilson's score interval without continuity correction.</summary>
    /// <param name="successes">Successes, 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Trials; with none there is no interval.</param>
    /// <returns>The interval, or null when there was no trial.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative, or there are more successes than trials.</exception>
    public static Interval? Wilson(long successes, long trials)
    {
        Check(successes, trials);
        if (trials == 0)
        {
            return null;
        }

        double x = successes;
        double n = trials;
        double z2 = Z95 * Z95;
        double centre = ((2 * x) + z2) / (2 * (n + z2));
        double half = Z95 * Math.Sqrt(z2 + (4 * x * (1 - (x / n)))) / (2 * (n + z2));

        // At the ends the formula gives 0 and 1 but for rounding.
        return new Interval(successes == 0 ? 0 : centre - half, successes == trials ? 1 : centre + half);
    }

    /// <summary>The exact interval of Clopper and Pearson, by quantiles of the beta distribution.</summary>
    /// <param name="successes">Successes, 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Trials; with none there is no interval.</param>
    /// <returns>The interval, or null when there was no trial.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative, or there are more successes than trials.</exception>
    public static Interval? ClopperPearson(long successes, long trials)
    {
        Check(successes, trials);
        if (trials == 0)
        {
            return null;
        }

        long failures = trials - successes;
        double low = successes == 0 ? 0 : Beta.InvCDF(successes, failures + 1, 0.025);
        double high = failures == 0 ? 1 : Beta.InvCDF(successes + 1, failures, 0.975);
        return new Interval(low, high);
    }

    private static void Check(long successes, long trials)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(trials);
        ArgumentOutOfRangeException.ThrowIfNegative(successes);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(successes, trials);
    }
}
