// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Signals.Numerics;

public static partial class PortableMath
{
    /// <summary>Exponential function e^x.</summary>
    /// <param name="x">Exponent, any value.</param>
    /// <returns>
    /// e^x within 0.6 ulp; where the result is subnormal (x below −708.4), within 1 ulp. Above 709.78… infinity, below
    /// −745.13… zero; NaN gives NaN.
    /// </returns>
    public static double Exp(double x)
    {
        if (!(Math.Abs(x) <= 708))
        {
            return ExpNearLimits(x, 0);
        }

        double significand = ExpParts(x, 0, out long k, out double change);
        double scaled = FromBits(Bits(significand) + ((k >> 6) << 52));
        return scaled + (scaled * change);
    }

    /// <summary>e^(x + tail) = 2^(k div 64) × head × (1 + change), head being the return value.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double ExpParts(double x, double tail, out long k, out double change)
    {
        double shifted = (x * SixtyFourOverLn2) + RoundingShift;
        double whole = shifted - RoundingShift;
        k = Bits(shifted) - Bits(RoundingShift);
        double r = ((x - (whole * Ln2Over64Hi)) - (whole * Ln2Over64Lo)) + tail;
        double r2 = r * r;
        double polynomial = (ExpC0 + (r * ExpC1)) + (r2 * (ExpC2 + (r * ExpC3)));
        int row = (int)(k & 63) * 2;
        change = ExpTable.Rows[row + 1] + (r + (r2 * polynomial));
        return ExpTable.Rows[row];
    }

    /// <summary>The same where 2^(k div 64) may lie outside the range of a double.</summary>
    private static double ExpNearLimits(double x, double tail)
    {
        if (IsNaN(x))
        {
            return double.NaN;
        }

        if (x > 710)
        {
            return double.PositiveInfinity;
        }

        if (x < -746)
        {
            return 0;
        }

        // Half of the power of two goes into the exponent field, the other half into a last multiplication.
        double head = ExpParts(x, tail, out long k, out double change);
        long power = k >> 6;
        long half = power >> 1;
        double scaled = FromBits(Bits(head) + (half << 52));
        return (scaled + (scaled * change)) * FromBits((1023 + power - half) << 52);
    }
}
