// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Randomness;

/// <summary>Quantile of the standard normal distribution, precise but slow; only the table of draws is made from it.</summary>
/// <remarks>
/// Source: Wichura, "Algorithm AS 241: the percentage points of the normal distribution", Applied Statistics 37:477-484, 1988,
/// routine PPND16 (relative accuracy about 1e-16). Its third range, below a probability of 1.4e-11, is never asked for here.
/// </remarks>
internal static class NormalQuantile
{
    private static ReadOnlySpan<double> CentreTop =>
    [
        3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
        4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3,
    ];

    private static ReadOnlySpan<double> CentreBottom =>
    [
        1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3,
        2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3,
    ];

    private static ReadOnlySpan<double> TailTop =>
    [
        1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
        1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4,
    ];

    private static ReadOnlySpan<double> TailBottom =>
    [
        1, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
        1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9,
    ];

    /// <summary>The number that a standard normal draw exceeds with a given probability.</summary>
    /// <param name="probability">Tail probability, 1.4e-11 to 0.5.</param>
    public static double UpperTail(double probability)
    {
        double q = 0.5 - probability;
        if (q <= 0.425)
        {
            double r = 0.180625 - (q * q);
            return q * Polynomial(CentreTop, r) / Polynomial(CentreBottom, r);
        }

        double s = Math.Sqrt(-PortableMath.Log(probability)) - 1.6;
        return Polynomial(TailTop, s) / Polynomial(TailBottom, s);
    }

    private static double Polynomial(ReadOnlySpan<double> coefficients, double x)
    {
        double sum = 0;
        for (int i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }
}
