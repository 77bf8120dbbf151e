// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>How well one method agrees with itself, from several measurements of each subject while the true value stays.</summary>
/// <remarks>Source: Bland and Altman, Lancet i:307-310, 1986, and Stat Methods Med Res 8:135-160, 1999.</remarks>
public sealed record Repeatability
{
    private Repeatability()
    {
    }

    /// <summary>Standard deviation within subjects: root of the mean square inside them; of pairs √(Σd² / 2n).</summary>
    public required double WithinSd { get; init; }

    /// <summary>Measurements of a subject as they enter a mean: 1 / mean of 1/m.</summary>
    public required double HarmonicCount { get; init; }

    /// <summary>The difference of two measurements that 95 % do not exceed: 1.96 √2 · <see cref="WithinSd"/>; with 2 in place of 1.96 as in 1986.</summary>
    /// <param name="rule">1.96 or 2.</param>
    public double Coefficient(LimitRule rule = LimitRule.Normal95) => LimitsOfAgreement.MultiplierOf(rule) * Math.Sqrt(2) * WithinSd;

    /// <summary>Repeatability of a method.</summary>
    /// <param name="subjects">The measurements of each subject; those with fewer than one are left out.</param>
    /// <returns>The repeatability; null when no subject has two measurements.</returns>
    public static Repeatability? Of(IEnumerable<IReadOnlyList<double>> subjects)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        Moments[] known = [.. subjects.Select(Moments.Of).Where(s => s.Count > 0)];
        long freedom = known.Sum(s => s.Count - 1);
        return freedom == 0 ? null : new Repeatability
        {
            WithinSd = Math.Sqrt(known.Sum(s => s.SumOfSquares) / freedom),
            HarmonicCount = known.Length / known.Sum(s => 1.0 / s.Count),
        };
    }

    /// <summary>
    /// Standard deviation of the difference of single measurements, from that of subjects' means: √(s² + (1 − 1/m₁) w₁² + (1 − 1/m₂) w₂²),
    /// for averaging hides part of the scatter.
    /// </summary>
    /// <param name="sdOfMeans">Standard deviation of the differences of the subjects' means.</param>
    /// <param name="first">Repeatability of one method.</param>
    /// <param name="second">Repeatability of the other; null when it is without error.</param>
    public static double SdOfSingles(double sdOfMeans, Repeatability first, Repeatability? second)
    {
        ArgumentNullException.ThrowIfNull(first);
        return Math.Sqrt((sdOfMeans * sdOfMeans) + Hidden(first) + (second is null ? 0 : Hidden(second)));
    }

    private static double Hidden(Repeatability r) => (1 - (1 / r.HarmonicCount)) * r.WithinSd * r.WithinSd;
}
