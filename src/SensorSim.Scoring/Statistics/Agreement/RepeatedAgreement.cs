// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>Agreement when each subject gives several differences and the true value varies: by components of variance.</summary>
/// <remarks>
/// <para>Source: Bland and Altman, J Biopharm Stat 17:571-582, 2007, and Stat Methods Med Res 8:135-160, 1999, section 5.3 (from memory): a one-way
/// analysis of variance of the differences by subject. Within = mean square inside subjects; between = (mean square of subjects − within) /
/// ((Σm)² − Σm²) · ((k − 1) Σm), m the differences of a subject, k subjects; below 0 it counts as 0. A single difference with one new
/// subject has the variance within + between.</para>
/// <para>Pooling all pairs as if they were independent makes the limits look surer than they are; the number of subjects is what counts.</para>
/// </remarks>
public sealed record RepeatedAgreement
{
    private RepeatedAgreement()
    {
    }

    /// <summary>Subjects, at least 2.</summary>
    public required int SubjectCount { get; init; }

    /// <summary>Differences of all subjects; more than subjects.</summary>
    public required long Count { get; init; }

    /// <summary>Mean of all differences, each weighing the same.</summary>
    public required double Bias { get; init; }

    /// <summary>Mean square of subjects, k − 1 degrees of freedom.</summary>
    public required double BetweenMeanSquare { get; init; }

    /// <summary>Variance within subjects: the mean square inside them, n − k degrees of freedom.</summary>
    public required double WithinVariance { get; init; }

    /// <summary>Differences of a subject as they count in the mean square of subjects; with equal numbers that number.</summary>
    public required double TypicalCount { get; init; }

    /// <summary>Where the limits lie.</summary>
    public required LimitRule Rule { get; init; }

    /// <summary>Variance between subjects, at least 0.</summary>
    public double BetweenVariance => Math.Max(0, (BetweenMeanSquare - WithinVariance) / TypicalCount);

    /// <summary>Standard deviation of a single difference with a new subject.</summary>
    public double Sd => Math.Sqrt(BetweenVariance + WithinVariance);

    /// <summary>Lower limit of agreement.</summary>
    public double LowerLimit => Bias - (LimitsOfAgreement.MultiplierOf(Rule) * Sd);

    /// <summary>Upper limit of agreement.</summary>
    public double UpperLimit => Bias + (LimitsOfAgreement.MultiplierOf(Rule) * Sd);

    /// <summary>Agreement of differences by subject.</summary>
    /// <param name="subjects">The differences of each subject; subjects without any are left out.</param>
    /// <param name="rule">Where the limits lie.</param>
    /// <returns>The agreement; null with fewer than two subjects, or with a single difference for each.</returns>
    public static RepeatedAgreement? Of(IEnumerable<IReadOnlyList<double>> subjects, LimitRule rule = LimitRule.Normal95)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        return OfMoments([.. subjects.Select(Moments.Of)], rule);
    }

    /// <summary>Agreement of differences of which the moments of each subject are known.</summary>
    /// <param name="subjects">Moments of the differences of each subject; those without any are left out.</param>
    /// <param name="rule">Where the limits lie.</param>
    /// <returns>The agreement; null with fewer than two subjects, or with a single difference for each.</returns>
    public static RepeatedAgreement? OfMoments(ReadOnlySpan<Moments> subjects, LimitRule rule = LimitRule.Normal95)
    {
        // Resampling asks this thousands of times: plain loops, and nothing is gathered.
        long n = 0;
        int k = 0;
        double weighted = 0, squares = 0, within = 0;
        foreach (Moments s in subjects)
        {
            if (s.Count > 0)
            {
                n += s.Count;
                k++;
                weighted += s.Count * s.Mean;
                squares += (double)s.Count * s.Count;
                within += s.SumOfSquares;
            }
        }

        if (k < 2 || n <= k)
        {
            return null;
        }

        double bias = weighted / n;
        double between = 0;
        foreach (Moments s in subjects)
        {
            if (s.Count > 0)
            {
                between += s.Count * (s.Mean - bias) * (s.Mean - bias);
            }
        }

        return new RepeatedAgreement
        {
            SubjectCount = k,
            Count = n,
            Bias = bias,
            BetweenMeanSquare = between / (k - 1),
            WithinVariance = within / (n - k),
            TypicalCount = (((double)n * n) - squares) / ((k - 1) * (double)n),
            Rule = rule,
        };
    }
}
