// SPDX-License-Identifier: MIT
using MathNet.Numerics;

namespace SensorSim.Scoring.Fitting;

/// <summary>The links of a binomial curve: share of a line, its derivative, and the line of a share.</summary>
public static class CurveLinks
{
    private const double Root2 = 1.4142135623730951;
    private const double InverseRoot2Pi = 0.3989422804014327;

    /// <summary>The share [0 to 1] that belongs to a value of the line.</summary>
    /// <param name="link">The link.</param>
    /// <param name="line">Value of the line.</param>
    public static double Share(this CurveLink link, double line) => link switch
    {
        CurveLink.Logit => LogitShare(line, Math.Exp(-Math.Abs(line))),
        CurveLink.Probit => 0.5 * SpecialFunctions.Erfc(-line / Root2),
        _ => -Expm1(-Math.Exp(line)),
    };

    /// <summary>Derivative of the share by the line, never negative.</summary>
    /// <param name="link">The link.</param>
    /// <param name="line">Value of the line.</param>
    public static double Slope(this CurveLink link, double line)
    {
        link.Share(line, out double slope);
        return slope;
    }

    /// <summary>Both at once: they have most of their exponentials in common.</summary>
    /// <param name="link">The link.</param>
    /// <param name="line">Value of the line.</param>
    /// <param name="slope">Derivative of the share by the line, never negative.</param>
    /// <returns>The share.</returns>
    public static double Share(this CurveLink link, double line, out double slope)
    {
        switch (link)
        {
            case CurveLink.Logit:
                double e = Math.Exp(-Math.Abs(line));
                double least = e / (1 + e);
                slope = least * (1 - least);
                return LogitShare(line, e);
            case CurveLink.Probit:
                slope = InverseRoot2Pi * Math.Exp(-0.5 * line * line);
                return link.Share(line);
            default:
                double risen = Math.Exp(line);
                slope = Math.Exp(line - risen);
                return -Expm1(-risen);
        }
    }

    /// <summary>The value of the line at which a share is reached; infinite at 0 and 1.</summary>
    /// <param name="link">The link.</param>
    /// <param name="share">Share, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is outside of 0 to 1.</exception>
    public static double Line(this CurveLink link, double share)
    {
        if (!(share >= 0 && share <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share is 0 to 1.");
        }

        if (share is 0 or 1)
        {
            return share == 0 ? double.NegativeInfinity : double.PositiveInfinity;
        }

        return link switch
        {
            CurveLink.Logit => Math.Log(share / (1 - share)),
            CurveLink.Probit => -Root2 * SpecialFunctions.ErfcInv(2 * share),
            _ => Math.Log(-Math.Log(1 - share)),
        };
    }

    // Of e to the power −|line|, which never overflows.
    private static double LogitShare(double line, double e) => line >= 0 ? 1 / (1 + e) : e / (1 + e);

    // 1 − e^−x for small x keeps its digits.
    private static double Expm1(double x) => Math.Abs(x) < 1e-5 ? x + (0.5 * x * x) : Math.Exp(x) - 1;
}
