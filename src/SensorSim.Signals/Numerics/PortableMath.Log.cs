// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    private const long SqrtHalfBits = 0x3FE6_A09E_667F_3BCD;
    private const double SmallestNormal = 2.2250738585072014E-308;
    private const double TwoTo54 = 18014398509481984.0;

    /// <summary>Natural logarithm.</summary>
    /// <param name="x">Argument, subnormal ones included.</param>
    /// <returns>ln x within 0.51 ulp. Zero gives −infinity, +infinity itself; a negative number or NaN gives NaN.</returns>
    public static double Log(double x)
    {
        if (!(x > 0))
        {
            return x == 0 ? double.NegativeInfinity : double.NaN;
        }

        return Bits(x) >= InfinityBits ? double.PositiveInfinity : LogParts(x, out _);
    }

    /// <summary>Logarithm as a sum of two doubles, relative error below 2^-65.</summary>
    /// <param name="x">Finite, above 0.</param>
    /// <param name="tail">What the return value lacks.</param>
    private static double LogParts(double x, out double tail)
    {
        long k = 0;
        if (x < SmallestNormal)
        {
            x *= TwoTo54;
            k = -54;
        }

        // x = 2^k z with z from √½ to √2; z = c + f with c a multiple of 1/128: f is exact.
        long bits = Bits(x);
        long power = (bits - SqrtHalfBits) >> 52;
        k += power;
        double z = FromBits(bits - (power << 52));
        int j = (int)((z * 128) + 0.5);
        int row = (j - 90) * 3;
        double c = j * (1.0 / 128);
        double f = z - c;

        // r + rTail = f / c.
        double reciprocal = LogTable.Rows[row];
        double r = f * reciprocal;
        double upper = UpperHalf(r);
        double lower = r - upper;
        double rTail = ((f - (upper * c)) - (lower * c)) * reciprocal;

        // ln z = ln c + r − r²/2 + r³ P(r), in order of size.
        double whole = (k * Ln2Hi) + LogTable.Rows[row + 1];
        double square = -0.5 * upper * upper;
        double squareTail = (-0.5 * lower * (r + upper)) - (r * rTail);
        double r2 = r * r;
        double polynomial = (LogC0 + (r * LogC1)) + (r2 * ((LogC2 + (r * LogC3)) + (r2 * ((LogC4 + (r * LogC5)) + (r2 * LogC6)))));
        double sum1 = whole + r;
        double lost1 = r - (sum1 - whole);
        double sum2 = sum1 + square;
        double lost2 = square - (sum2 - sum1);
        double small = ((k * Ln2Lo) + LogTable.Rows[row + 2]) + (lost1 + lost2) + (rTail + squareTail) + (r2 * r * polynomial);
        double head = sum2 + small;
        tail = small - (head - sum2);
        return head;
    }
}
