// SPDX-License-Identifier: MIT
using MathNet.Numerics.Distributions;

namespace SensorSim.Scoring.Statistics.Agreement;

/// <summary>Agreement of two measurements of the same thing: bias, spread and limits, one difference for each subject.</summary>
/// <remarks>
/// Source: Bland and Altman, Lancet i:307-310, 1986; Stat Methods Med Res 8:135-160, 1999. It holds for independent differences: with several
/// of one subject use <see cref="RepeatedAgreement"/>.
/// </remarks>
public sealed record LimitsOfAgreement
{
    private LimitsOfAgreement()
    {
    }

    /// <summary>Differences, at least 2.</summary>
    public required long Count { get; init; }

    /// <summary>Mean difference, in the unit of the differences.</summary>
    public required double Bias { get; init; }

    /// <summary>Standard deviation of the differences, divisor n − 1.</summary>
    public required double Sd { get; init; }

    /// <summary>Standard deviations from the bias to a limit: 1.96 or 2.</summary>
    public required double Multiplier { get; init; }

    /// <summary>Which standard error the limits have.</summary>
    public required LimitErrorForm ErrorForm { get; init; }

    /// <summary>Lower limit of agreement.</summary>
    public double LowerLimit => Bias - (Multiplier * Sd);

    /// <summary>Upper limit of agreement.</summary>
    public double UpperLimit => Bias + (Multiplier * Sd);

    /// <summary>Standard error of the bias.</summary>
    public double BiasStandardError => Sd / Math.Sqrt(Count);

    /// <summary>Standard error of each limit, of the form <see cref="ErrorForm"/>.</summary>
    public double LimitStandardError => Sd * Math.Sqrt(ErrorForm == LimitErrorForm.Form1986
        ? 3.0 / Count
        : (1.0 / Count) + (Multiplier * Multiplier / (2.0 * (Count - 1))));

    /// <summary>95 % interval of the bias, by the t distribution with n − 1 degrees of freedom.</summary>
    public Interval BiasInterval => About(Bias, BiasStandardError);

    /// <summary>95 % interval of the lower limit, by the same t.</summary>
    public Interval LowerLimitInterval => About(LowerLimit, LimitStandardError);

    /// <summary>95 % interval of the upper limit, by the same t.</summary>
    public Interval UpperLimitInterval => About(UpperLimit, LimitStandardError);

    /// <summary>Agreement of single differences.</summary>
    /// <param name="differences">Estimate − truth (or first − second method), one for each subject.</param>
    /// <param name="rule">Where the limits lie.</param>
    /// <param name="form">Which standard error they have.</param>
    /// <returns>The agreement; null with fewer than two differences.</returns>
    public static LimitsOfAgreement? Of(
        IReadOnlyList<double> differences, LimitRule rule = LimitRule.Normal95, LimitErrorForm form = LimitErrorForm.Form1999)
    {
        ArgumentNullException.ThrowIfNull(differences);
        var moments = Moments.Of(differences);
        return moments.Sd is double sd ? OfMoments(moments.Count, moments.Mean, sd, rule, form) : null;
    }

    /// <summary>Agreement of differences of which the moments are known.</summary>
    /// <param name="count">Differences, at least 2.</param>
    /// <param name="bias">Their mean.</param>
    /// <param name="sd">Their standard deviation, divisor n − 1.</param>
    /// <param name="rule">Where the limits lie.</param>
    /// <param name="form">Which standard error they have.</param>
    public static LimitsOfAgreement OfMoments(
        long count, double bias, double sd, LimitRule rule = LimitRule.Normal95, LimitErrorForm form = LimitErrorForm.Form1999)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        return new LimitsOfAgreement { Count = count, Bias = bias, Sd = sd, Multiplier = MultiplierOf(rule), ErrorForm = form };
    }

    /// <summary>Standard deviations from the bias to a limit.</summary>
    /// <param name="rule">The rule.</param>
    public static double MultiplierOf(LimitRule rule) => rule == LimitRule.TwoSd ? 2 : 1.96;

    private Interval About(double centre, double standardError)
    {
        double t = StudentT.InvCDF(0, 1, Count - 1, 0.975);
        return new Interval(centre - (t * standardError), centre + (t * standardError));
    }
}
