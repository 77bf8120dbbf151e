// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

/// <summary>Takes whole quarter turns off angles of any size.</summary>
/// <remarks>
/// Source of the method: Payne and Hanek, "Radian reduction for trigonometric functions", SIGNUM Newsletter 18:19-24, 1983:
/// only those digits of 2/π are multiplied whose product with the angle reaches the fraction of a turn.
/// </remarks>
internal static class LargeAngle
{
    private const double HalfPi = 1.5707963267948966;
    private const double HalfPiLo = 6.123233995736766E-17;

    /// <summary>x = quadrant × π/2 + return value + tail, modulo a turn.</summary>
    /// <param name="x">Angle [rad], finite, magnitude above 2^19.</param>
    /// <param name="tail">What the return value lacks.</param>
    /// <param name="quadrant">0 to 3.</param>
    public static double Reduce(double x, out double tail, out int quadrant)
    {
        long bits = BitConverter.DoubleToInt64Bits(x);
        int exponent = (int)((bits >> 52) & 0x7FF) - 1075;
        ulong significand = ((ulong)bits & 0xF_FFFF_FFFF_FFFF) | 0x10_0000_0000_0000;

        // 192 digits of 2^exponent × 2/π from weight 2 down; what lies above adds whole turns only.
        int position = exponent + 62;
        int word = position >> 6;
        int shift = position & 63;
        UInt128 low = (UInt128)significand * Digits(word + 2, shift);
        UInt128 middle = ((UInt128)significand * Digits(word + 1, shift)) + (low >> 64);
        ulong top = unchecked((significand * Digits(word, shift)) + (ulong)(middle >> 64));
        ulong second = unchecked((ulong)middle);
        ulong third = unchecked((ulong)low);

        // The upper two bits count quarter turns; round to the nearest, the rest is a fraction from −½ to ½.
        int q = (int)(unchecked(top + (1UL << 61)) >> 62);
        top = unchecked(top - ((ulong)q << 62));
        bool isNegative = (long)top < 0;
        if (isNegative)
        {
            third = unchecked(0 - third);
            second = unchecked(~second + (third == 0 ? 1UL : 0));
            top = unchecked(~top + (third == 0 && second == 0 ? 1UL : 0));
        }

        double a = (double)(uint)(top >> 32) * (1.0 / (1L << 30));
        double b = unchecked((uint)top) * (1.0 / (1L << 62));
        double c = (double)(uint)(second >> 32) * (1.0 / (1L << 62) / (1L << 32));
        double d = unchecked((uint)second) * (1.0 / (1L << 62) / (1L << 62) / 4);
        double e = (double)(uint)(third >> 32) * (1.0 / (1L << 62) / (1L << 62) / (1L << 34));
        double sum1 = a + b;
        double lost1 = b - (sum1 - a);
        double sum2 = sum1 + c;
        double lost2 = c - (sum2 - sum1);
        double small = (lost1 + lost2) + (d + e);
        double fraction = sum2 + small;
        double fractionTail = small - (fraction - sum2);

        // times π/2, keeping what the product loses
        double upper = Upper(fraction);
        double lower = fraction - upper;
        double piUpper = Upper(HalfPi);
        double piLower = HalfPi - piUpper;
        double product = fraction * HalfPi;
        double lost = (((upper * piUpper) - product) + (upper * piLower) + (lower * piUpper)) + (lower * piLower);
        double rest = lost + ((fraction * HalfPiLo) + (fractionTail * HalfPi));
        double r = product + rest;
        tail = rest - (r - product);
        bool flip = isNegative != (bits < 0);
        tail = flip ? -tail : tail;
        quadrant = bits < 0 ? -q & 3 : q;
        return flip ? -r : r;
    }

    private static ulong Digits(int word, int shift)
    {
        ReadOnlySpan<ulong> words = TwoOverPi.Words;
        return (words[word] << shift) | ((words[word + 1] >> 1) >> (63 - shift));
    }

    private static double Upper(double x) =>
        BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(x) & ~0x7FF_FFFFL);
}
