// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>Logarithms of whole numbers, one bit of the result for each squaring. For use once per reading, never per sample.</summary>
public static class Log2
{
    /// <summary>Bits after the point of every result here.</summary>
    public const int FractionBits = 24;

    // ln 2 in UQ0.32.
    private const long LnOf2 = 2_977_044_472;

    /// <summary>Logarithm to base 2.</summary>
    /// <param name="value">1 to 2^32 − 1; 0 has none and gives 0.</param>
    /// <returns>The logarithm in Q8.24; within 0.6 of a step (3.6 × 10^-8) of the true one.</returns>
    /// <remarks>
    /// Input: UQ32.0; a factor 2^n on the input adds n to the output.
    /// Product: UQ1.31 squared is UQ2.62, in 64 bits.
    /// Accumulator: UQ1.31 mantissa, 1 up to 2; 25 squarings, each cut at 2^−31, which counts half as much with every further bit.
    /// Worst case: 2^32 − 1 gives 32 × 2^24 = 2^29.
    /// Output: Q8.24, the 25th bit rounded half up.
    /// </remarks>
    public static int Q24(uint value)
    {
        if (value == 0)
        {
            return 0;
        }

        int whole = 31;
        uint mantissa = value;
        while ((mantissa & 0x8000_0000u) == 0)
        {
            mantissa <<= 1;
            whole--;
        }

        int result = whole;
        for (int bit = 0; bit <= FractionBits; bit++)
        {
            ulong square = (ulong)mantissa * mantissa;
            bool isTwoOrMore = square >> 63 != 0;
            result = (result << 1) | (isTwoOrMore ? 1 : 0);
            mantissa = (uint)(square >> (isTwoOrMore ? 32 : 31));
        }

        return Shift.Round(result, 1);
    }

    /// <summary>Natural logarithm.</summary>
    /// <param name="value">1 to 2^32 − 1; 0 has none and gives 0.</param>
    /// <returns>The logarithm in Q8.24; within a step (6 × 10^-8) of the true one.</returns>
    /// <remarks>
    /// Input: UQ32.0.
    /// Product: Q8.24 × UQ0.32, 62 bits.
    /// Accumulator: 64 bits.
    /// Worst case: 22.2 × 2^24 below 2^29.
    /// Output: Q8.24, half up.
    /// </remarks>
    public static int NaturalQ24(uint value) => (int)(((Q24(value) * LnOf2) + (1L << 31)) >> 32);
}
