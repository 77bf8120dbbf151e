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

    /// <summary>Wilson's score interval with continuity correction.</summary>
    /// <param name="successes">Successes, 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Trials; with none there is no interval.</param>
    /// <returns>The interval, or null when there was no trial.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative, or there are more successes than trials.</exception>
    public static Interval? WilsonCorrected(long successes, long trials)
    {
        Check(successes, trials);
        if (trials == 0)
        {
            return null;
        }

        double x = successes;
        double n = trials;
        double p = x / n;
        double z2 = Z95 * Z95;
        double whole = 2 * (n + z2);
        double below = Z95 * Math.Sqrt(z2 - 2 - (1 / n) + (4 * p * ((n * (1 - p)) + 1)));
        double above = Z95 * Math.Sqrt(z2 + 2 - (1 / n) + (4 * p * ((n * (1 - p)) - 1)));
        double low = successes == 0 ? 0 : Math.Max(0, ((2 * x) + z2 - 1 - below) / whole);
        double high = successes == trials ? 1 : Math.Min(1, ((2 * x) + z2 + 1 + above) / whole);
        return new Interval(low, high);
    }

    /// <summary>The mid-P interval: the exact one with half of the probability of what was seen in each tail.</summary>
    /// <param name="successes">Successes, 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Trials; with none there is no interval.</param>
    /// <returns>The interval, to 10⁻¹²; null when there was no trial.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative, or there are more successes than trials.</exception>
    public static Interval? MidP(long successes, long trials)
    {
        Check(successes, trials);
        if (trials == 0)
        {
            return null;
        }

        // Upper tail with half of its first term; it rises with p from 0 to 1.
        double Tail(double p) => (AtLeast(successes, trials, p) + AtLeast(successes + 1, trials, p)) / 2;
        double low = successes == 0 ? 0 : Solve(p => Tail(p) - 0.025);
        double high = successes == trials ? 1 : Solve(p => Tail(p) - 0.975);
        return new Interval(low, high);
    }

    private static double AtLeast(long successes, long trials, double p) =>
        successes <= 0 ? 1 : successes > trials ? 0 : Beta.CDF(successes, trials - successes + 1, p);

    private static double Solve(Func<double, double> rising)
    {
        double low = 0;
        double high = 1;
        while (high - low > 1e-12)
        {
            double middle = (low + high) / 2;
            (low, high) = rising(middle) < 0 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private static void Check(long successes, long trials)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(trials);
        ArgumentOutOfRangeException.ThrowIfNegative(successes);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(successes, trials);
    }
}
