// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Readings;

/// <summary>Arithmetic on 64-bit numbers that a reading needs a few times a beat or a second.</summary>
public static class Wide
{
    /// <summary>Divides by 2^bits, rounding toward minus infinity.</summary>
    /// <param name="value">Any number.</param>
    /// <param name="bits">0 to 63.</param>
    /// <remarks>
    /// Input: 64 bits, Qm.n.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: none, the magnitude never grows.
    /// Output: Q(m+bits).(n−bits), floor.
    /// </remarks>
    public static long Floor(long value, int bits) => value >> bits;

    /// <summary>Bits of a magnitude.</summary>
    /// <param name="value">Any number.</param>
    /// <remarks>
    /// Input: 64 bits unsigned.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: 64.
    /// Output: 0 to 64; counts leading zeros, one instruction on most cores.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Bits(ulong value) => 64 - BitOperations.LeadingZeroCount(value);

    /// <summary>Quotient, rounded to nearest, without the clip at 31 bits of <see cref="FixedPoint.LongDivision"/>.</summary>
    /// <param name="numerator">0 to 2^63 − 1.</param>
    /// <param name="denominator">1 to 2^31 − 1; 0 counts as 1.</param>
    /// <remarks>
    /// Input: UQ63.0 over UQ31.0.
    /// Product: none; one step for each bit that the quotient can have.
    /// Accumulator: 32 bits of remainder, 64 bits of quotient.
    /// Worst case: division by one.
    /// Output: UQ63.0, half up.
    /// </remarks>
    public static ulong Divide(ulong numerator, uint denominator)
    {
        if (denominator <= 1)
        {
            return numerator;
        }

        int more = Bits(numerator) - Bits(denominator);
        more = more < 0 ? 0 : more;
        ulong quotient = 0;
        uint remainder = (uint)(numerator >> more);
        while (true)
        {
            uint fits = remainder >= denominator ? 1u : 0u;
            remainder -= denominator & (0u - fits);
            quotient = (quotient << 1) | fits;
            if (more == 0)
            {
                break;
            }

            more--;
            remainder = (remainder << 1) | (uint)((numerator >> more) & 1);
        }

        return quotient + (remainder >= denominator - remainder ? 1u : 0u);
    }

    /// <summary>The largest whole number whose square does not exceed the value.</summary>
    /// <param name="value">Any number.</param>
    /// <remarks>
    /// Input: UQ64.0.
    /// Product: none; one bit of the root for each of 32 steps.
    /// Accumulator: 64 bits, remainder and twice the root side by side.
    /// Worst case: 2^64 − 1 gives 2^32 − 1.
    /// Output: UQ32.0, floor.
    /// </remarks>
    public static uint Root(ulong value)
    {
        ulong root = 0;
        for (ulong bit = 1UL << 62; bit != 0; bit >>= 2)
        {
            ulong trial = root + bit;
            root >>= 1;
            if (value >= trial)
            {
                value -= trial;
                root += bit;
            }
        }

        return (uint)root;
    }
}
