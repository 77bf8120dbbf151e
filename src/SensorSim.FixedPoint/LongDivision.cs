// SPDX-License-Identifier: MIT
using System.Numerics;

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
    /// Product: none; one step for each bit that the quotient can have, found by counting leading zeros: 32 at most, usually a dozen.
    /// Accumulator: 32 bits of remainder (below twice the denominator), 32 bits of quotient.
    /// Worst case: quotients above 31 bits clip.
    /// Output: UQ31.0, half up, saturating.
    /// </remarks>
    public static int Rounded(ulong numerator, uint denominator)
    {
        if (denominator == 0)
        {
            return int.MaxValue;
        }

        // The numerator has so many bits more: the quotient lies between 2^(more − 1) and 2^(more + 1).
        int more = BitOperations.LeadingZeroCount((ulong)denominator) - BitOperations.LeadingZeroCount(numerator);
        if (more > 31)
        {
            return int.MaxValue;
        }

        more = more < 0 ? 0 : more;
        uint quotient = 0;
        uint remainder = (uint)(numerator >> more);
        uint rest = (uint)(numerator & ((1UL << more) - 1));
        while (true)
        {
            uint fits = remainder >= denominator ? 1u : 0u;
            remainder -= denominator & unchecked(0u - fits);
            quotient = (quotient << 1) | fits;
            if (more == 0)
            {
                break;
            }

            more--;
            remainder = (remainder << 1) | ((rest >> more) & 1);
        }

        if (quotient >= int.MaxValue)
        {
            return int.MaxValue;
        }

        return (int)quotient + (remainder >= denominator - remainder ? 1 : 0);
    }
}
