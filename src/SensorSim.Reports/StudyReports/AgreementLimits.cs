// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Reports.StudyReports;

/// <summary>A reading beside its true value.</summary>
/// <param name="Subject">Which person or record it is from.</param>
/// <param name="Truth">True value, in the unit of the kind.</param>
/// <param name="Estimate">The reading, in the unit of the kind.</param>
public readonly record struct AgreementPair(int Subject, double Truth, double Estimate);

/// <summary>Mean difference and limits of agreement, each with its 95 % interval where there is one.</summary>
/// <remarks>Whoever analyses repeated readings of a person computes them from variance components and gives them here.</remarks>
public sealed record AgreementLimits
{
    // The method's own number, not the quantile: two computations of the same data then agree.
    private const double Reach = 1.96;

    /// <summary>Mean of reading less truth, in the unit of the kind.</summary>
    public required double Bias { get; init; }

    /// <summary>Interval of the bias; null: not known.</summary>
    public Interval? BiasInterval { get; init; }

    /// <summary>Lower limit of agreement, in the unit of the kind.</summary>
    public required double Low { get; init; }

    /// <summary>Interval of the lower limit; null: not known.</summary>
    public Interval? LowInterval { get; init; }

    /// <summary>Upper limit of agreement, in the unit of the kind.</summary>
    public required double High { get; init; }

    /// <summary>Interval of the upper limit; null: not known.</summary>
    public Interval? HighInterval { get; init; }

    /// <summary>One sentence: how they are defined.</summary>
    public required string Definition { get; init; }

    /// <summary>Limits for pairs that are independent of one another; for many readings of few persons the intervals are too narrow.</summary>
    /// <remarks>
    /// Mean ± 1.96 SD (divisor n − 1); standard error of the mean s/√n, of a limit s√(1/n + 1.96²/(2(n − 1))); intervals by the normal quantile.
    /// Source: Bland JM, Altman DG, Stat Methods Med Res 8:135-160, 1999 (from memory).
    /// </remarks>
    /// <param name="pairs">The pairs; those that are not finite are left out.</param>
    /// <returns>The limits; null with fewer than two pairs.</returns>
    public static AgreementLimits? OfIndependent(IEnumerable<AgreementPair> pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        double[] differences = [.. pairs.Select(p => p.Estimate - p.Truth).Where(double.IsFinite)];
        int n = differences.Length;
        if (n < 2)
        {
            return null;
        }

        double bias = differences.Sum() / n;
        double sd = Math.Sqrt(differences.Sum(d => (d - bias) * (d - bias)) / (n - 1));
        double reach = Reach * sd;
        double ofMean = Proportions.Z95 * sd / Math.Sqrt(n);
        double ofLimit = Proportions.Z95 * sd * Math.Sqrt((1.0 / n) + (Reach * Reach / (2.0 * (n - 1))));
        return new AgreementLimits
        {
            Bias = bias,
            BiasInterval = new Interval(bias - ofMean, bias + ofMean),
            Low = bias - reach,
            LowInterval = new Interval(bias - reach - ofLimit, bias - reach + ofLimit),
            High = bias + reach,
            HighInterval = new Interval(bias + reach - ofLimit, bias + reach + ofLimit),
            Definition = "Bias is the mean of reading less truth, the limits of agreement lie 1.96 standard deviations (divisor n − 1) from it; their 95 % intervals take the pairs as independent, so with many readings of few persons they are too narrow (Bland and Altman, 1999).",
        };
    }
}
