// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>Concordance correlation of pairs: how close they lie to the line of equal values.</summary>
/// <remarks>
/// Source: Lin, Biometrics 45:255-268, 1989; standard error with the correction of Biometrics 56:324-325, 2000. Variances have the divisor n. The
/// interval holds for independent pairs.
/// </remarks>
public sealed record ConcordanceCorrelation
{
    private ConcordanceCorrelation()
    {
    }

    /// <summary>Pairs, at least 3.</summary>
    public required long Count { get; init; }

    /// <summary>Concordance, −1 to 1.</summary>
    public required double Concordance { get; init; }

    /// <summary>Pearson's correlation: precision.</summary>
    public required double Pearson { get; init; }

    /// <summary>Standard error of the concordance; null when it or the correlation is 0, or the agreement is perfect.</summary>
    public required double? StandardError { get; init; }

    /// <summary>Concordance / correlation: accuracy, 0 to 1; null without a correlation.</summary>
    public double? BiasCorrection => Pearson == 0 ? null : Concordance / Pearson;

    /// <summary>95 % interval through Fisher's z; null when the standard error is unknown.</summary>
    public Interval? Interval95
    {
        get
        {
            if (StandardError is not double error)
            {
                return null;
            }

            double half = Proportions.Z95 * error / (1 - (Concordance * Concordance));
            double z = Math.Atanh(Concordance);
            return new Interval(Math.Tanh(z - half), Math.Tanh(z + half));
        }
    }

    /// <summary>Concordance of pairs.</summary>
    /// <param name="pairs">Sums of the pairs.</param>
    /// <returns>The concordance; null with fewer than three pairs, or when one side does not vary.</returns>
    public static ConcordanceCorrelation? Of(PairSums pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        if (pairs.Count < 3 || pairs.Pearson is not double r || pairs.TruthVariance is not double x || pairs.EstimateVariance is not double y)
        {
            return null;
        }

        double divisor = (pairs.Count - 1.0) / pairs.Count;
        double sx = Math.Sqrt(x * divisor);
        double sy = Math.Sqrt(y * divisor);
        double shift = pairs.Bias!.Value;
        double c = 2 * r * sx * sy / ((sx * sx) + (sy * sy) + (shift * shift));
        return new ConcordanceCorrelation { Count = pairs.Count, Concordance = c, Pearson = r, StandardError = ErrorOf(r, c, shift * shift / (sx * sy), pairs.Count) };
    }

    // u2 is the square of the shift of means in units of √(s_x s_y).
    private static double? ErrorOf(double r, double c, double u2, long n)
    {
        if (r == 0 || c == 0 || Math.Abs(c) >= 1)
        {
            return null;
        }

        double r2 = r * r;
        double c2 = c * c;
        double variance = (((1 - r2) * c2 * (1 - c2) / r2) + (2 * c2 * c * (1 - c) * u2 / r) - (c2 * c2 * u2 * u2 / (2 * r2))) / (n - 2);
        return variance > 0 ? Math.Sqrt(variance) : null;
    }
}
