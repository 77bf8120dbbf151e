// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    private const double TwoTo53 = 9007199254740992.0;
    private const double TwoTo65 = 36893488147419103232.0;

    /// <summary>Power x^y.</summary>
    /// <param name="x">Base; a negative one needs a whole <paramref name="y"/>.</param>
    /// <param name="y">Exponent.</param>
    /// <returns>
    /// x^y within 0.6 ulp; where the result is subnormal, within 1 ulp. Zeros, infinities and NaN as IEEE 754-2019
    /// section 9.2.1 says for <c>pow</c>: x^0 and 1^y are 1 for any partner, a negative base with a fractional exponent is NaN.
    /// </returns>
    public static double Pow(double x, double y)
    {
        if (y == 0 || x == 1)
        {
            return 1;
        }

        if (IsNaN(x) || IsNaN(y))
        {
            return double.NaN;
        }

        bool yIsWhole = IsWhole(y);
        double magnitude = Math.Abs(x);
        double result;
        if (x < 0 && !yIsWhole && magnitude < double.PositiveInfinity)
        {
            return double.NaN;
        }

        if (magnitude == 0 || Bits(magnitude) == InfinityBits)
        {
            result = (magnitude == 0) == (y > 0) ? 0 : double.PositiveInfinity;
        }
        else
        {
            result = PowOfPositive(magnitude, y);
        }

        bool isNegative = Bits(x) < 0 && yIsWhole && !IsWhole(y * 0.5);
        return isNegative ? -result : result;
    }

    private static double PowOfPositive(double x, double y)
    {
        if (x == 1)
        {
            return 1;
        }

        // |ln x| lies between 2^-53 and 745 (or is 0): beyond these exponents the answer is known.
        if (Math.Abs(y) > TwoTo65)
        {
            return (x > 1) == (y > 0) ? double.PositiveInfinity : 0;
        }

        if (Math.Abs(y) < 1 / TwoTo65)
        {
            return 1;
        }

        double log = LogParts(x, out double logTail);
        double product = y * log;
        double yUpper = UpperHalf(y);
        double yLower = y - yUpper;
        double logUpper = UpperHalf(log);
        double logLower = log - logUpper;
        double lost = (((yUpper * logUpper) - product) + (yUpper * logLower) + (yLower * logUpper)) + (yLower * logLower);
        double tail = lost + (y * logTail);
        if (!(Math.Abs(product) <= 708))
        {
            return ExpNearLimits(product, tail);
        }

        double significand = ExpParts(product, tail, out long k, out double change);
        double scaled = FromBits(Bits(significand) + ((k >> 6) << 52));
        return scaled + (scaled * change);
    }

    /// <summary>Whether a number is whole; infinities and everything from 2^53 up are.</summary>
    private static bool IsWhole(double y) => Math.Abs(y) >= TwoTo53 || Math.Floor(y) == y;
}
