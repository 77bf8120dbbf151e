// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>Division by shifts and subtractions, for cores without a divider. For use once per beat, never per sample.</summary>
public static class LongDivision
{
    /// <summary>Quotient of a wide number, rounded to nearest, halves upward.</summary>
    /// <param name="numerator">0 to 2^63 − 1.</param>
    /// <param name="denominator">1 to 2^31 − 1.</param>
    /// <returns>The quotient, clipped to 2^31 − 1; that value also for a denominator of 0.</returns>
    /// <remarks>
    /// Input: UQ63.0 over UQ31.0.
    /// Product: none; one bit of the quotient for each of 64 steps.
    /// Accumulator: 32 bits of remainder (below twice the denominator), 64 bits of quotient.
    /// Worst case: quotients above 31 bits clip.
    /// Output: UQ31.0, half up, saturating.
    /// </remarks>
    public static int Rounded(ulong numerator, uint denominator)
    {
        if (denominator == 0)
        {
            return int.MaxValue;
        }

        ulong quotient = 0;
        uint remainder = 0;
        for (int bit = 63; bit >= 0; bit--)
        {
            remainder = (remainder << 1) | (uint)((numerator >> bit) & 1);
            quotient <<= 1;
            if (remainder >= denominator)
            {
                remainder -= denominator;
                quotient |= 1;
            }
        }

        quotient += remainder >= denominator - remainder ? 1u : 0u;
        return quotient > int.MaxValue ? int.MaxValue : (int)quotient;
    }
}
