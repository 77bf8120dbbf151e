// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.FixedPoint;

/// <summary>Division by shifts and subtractions, for cores without a divider; on x64 by the processor's divider, with the same quotient. For use once per beat, never per sample.</summary>
public static partial class LongDivision
{
    /// <summary>Quotient of a wide number, rounded to nearest, halves upward.</summary>
    /// <param name="numerator">0 to 2^63 − 1.</param>
    /// <param name="denominator">1 to 2^31 − 1.</param>
    /// <returns>The quotient, clipped to 2^31 − 1; that value also for a denominator of 0.</returns>
    /// <remarks>
    /// Input: UQ63.0 over UQ31.0.
    /// Product: none; one step for each bit that the quotient can have, found by counting leading zeros: 32 at most, usually a dozen.
    /// Accumulator: 33 bits and sign of remainder (within twice the denominator), 32 bits of quotient.
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

        if (X86Base.X64.IsSupported)
        {
            return Divided(numerator, denominator);
        }

        more = more < 0 ? 0 : more;
        uint rest = (uint)(numerator & ((1UL << more) - 1));

        // Without restoring: what was taken off too often is given back with the next bit. The sign says which, without a jump.
        long remainder = (long)(numerator >> more) - denominator;
        uint quotient = (uint)(1 + (int)(remainder >> 63));
        while (more > 0)
        {
            more--;
            long sign = remainder >> 63;
            remainder = (2 * remainder) + ((rest >> more) & 1) + sign - (denominator ^ sign);
            quotient = (2 * quotient) + (uint)(1 + (int)(remainder >> 63));
        }

        remainder += denominator & (remainder >> 63);
        if (quotient >= int.MaxValue)
        {
            return int.MaxValue;
        }

        return (int)quotient + (2 * remainder >= denominator ? 1 : 0);
    }
}
