// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Fitting;

/// <summary>
/// A fitted curve: share = floor + (1 − floor − lapse) × link(line), line = intercept + slope × level + bend × level². It runs between the floor and 1 − lapse.
/// </summary>
public sealed record BinomialCurve
{
    /// <summary>The link.</summary>
    public required CurveLink Link { get; init; }

    /// <summary>The line at level 0.</summary>
    public required double Intercept { get; init; }

    /// <summary>Slope of the line for each unit of the level.</summary>
    public required double Slope { get; init; }

    /// <summary>Bend of the line for each squared unit of the level; 0: straight.</summary>
    public double Bend { get; init; }

    /// <summary>What the curve stays short of 1 at its upper end [0 to 1].</summary>
    public double Lapse { get; init; }

    /// <summary>Lower end of the curve [0 to 1].</summary>
    public double Floor { get; init; }

    /// <summary>Variance of the intercept, from the expected information; lapse, floor and bend taken as known.</summary>
    public double InterceptVariance { get; init; }

    /// <summary>Variance of the slope.</summary>
    public double SlopeVariance { get; init; }

    /// <summary>Covariance of intercept and slope.</summary>
    public double Covariance { get; init; }

    /// <summary>Twice the distance of the logarithm of the likelihood from that of a curve through every level.</summary>
    public double Deviance { get; init; }

    /// <summary>Pearson's sum of squared distances over their binomial variance.</summary>
    public double PearsonX2 { get; init; }

    /// <summary>Levels with trials, less free parameters.</summary>
    public int DegreesOfFreedom { get; init; }

    /// <summary>Whether the iteration came to rest.</summary>
    public bool IsConverged { get; init; }

    /// <summary>Levels on the sloping part: where the link gives 0.001 to 0.999.</summary>
    public int SlopingLevels { get; init; }

    /// <summary>
    /// Whether the change happens between two levels: fewer than two levels lie on the sloping part. Slope and variances then mean nothing,
    /// and a crossing is known to lie between two levels but not where.
    /// </summary>
    public bool IsStep { get; init; }

    /// <summary>The share at a level.</summary>
    /// <param name="level">The level.</param>
    public double At(double level) => Floor + ((1 - Floor - Lapse) * Link.Share(Intercept + (level * (Slope + (level * Bend)))));

    /// <summary>The level at which a share is reached; null when the curve does not come there, or is bent.</summary>
    /// <param name="share">The share.</param>
    public double? LevelAt(double share)
    {
        double part = PartOf(share);
        return part > 0 && part < 1 && Slope != 0 && Bend == 0 ? (Link.Line(part) - Intercept) / Slope : null;
    }

    /// <summary>Standard error of <see cref="LevelAt"/> to first order (delta method); null when the curve does not come there.</summary>
    /// <param name="share">The share.</param>
    public double? StandardErrorAt(double share) => LevelAt(share) is double x
        ? Math.Sqrt(InterceptVariance + (2 * x * Covariance) + (x * x * SlopeVariance)) / Math.Abs(Slope)
        : null;

    /// <summary>
    /// Fieller's 95 % interval of <see cref="LevelAt"/>, for independent trials only: all levels whose line is not significantly off the
    /// line of the share.
    /// </summary>
    /// <param name="share">The share.</param>
    /// <returns>
    /// The interval; null when the curve does not come there or is bent, or when the slope is not significant, so that the levels are no bounded interval.
    /// </returns>
    /// <remarks>
    /// The roots in x of (b0 + b1 x − c)² = z² (V00 + 2 x V01 + x² V11). Source: Fieller EC, J R Stat Soc B 16:175-185, 1954; Finney DJ, Probit
    /// Analysis (both from memory). Beats of a run are not independent: then resample whole seeds.
    /// </remarks>
    public Interval? FiellerAt(double share)
    {
        double part = PartOf(share);
        if (!(part > 0 && part < 1) || Bend != 0)
        {
            return null;
        }

        double z2 = Proportions.Z95 * Proportions.Z95;
        double offset = Intercept - Link.Line(part);
        double a = (Slope * Slope) - (z2 * SlopeVariance);
        double b = (Slope * offset) - (z2 * Covariance);
        double c = (offset * offset) - (z2 * InterceptVariance);
        double inner = (b * b) - (a * c);
        if (!(a > 0) || !(inner >= 0))
        {
            return null;
        }

        double root = Math.Sqrt(inner);
        return new Interval((-b - root) / a, (-b + root) / a);
    }

    private double PartOf(double share) => (share - Floor) / (1 - Floor - Lapse);
}
