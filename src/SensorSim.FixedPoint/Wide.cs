// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Arithmetic on numbers of 64 bits: shifts with the rounding named, and what a reading needs a few times a beat or a second.</summary>
public static class Wide
{
    /// <summary>Divides by 2^bits, rounding to nearest, halves upward.</summary>
    /// <param name="value">Any.</param>
    /// <param name="bits">0 to 62.</param>
    /// <remarks>
    /// Input: 64 bits, Qm.n.
    /// Product: none.
    /// Accumulator: 64 bits; the half is added after the shift, so nothing can overflow.
    /// Worst case: none, the magnitude never grows.
    /// Output: Q(m+bits).(n−bits), half up.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static long Round(long value, int bits) => bits == 0 ? value : (value >> bits) + ((value >> (bits - 1)) & 1);

    /// <summary>Divides by 2^bits, rounding to nearest, halves upward, where there is room for the half.</summary>
    /// <param name="value">Magnitude below 2^62.</param>
    /// <param name="bits">0 to 62.</param>
    /// <remarks>
    /// Input: 63 bits, Qm.n.
    /// Product: none.
    /// Accumulator: 64 bits, the half included.
    /// Worst case: 2^62 + 2^61.
    /// Output: Q(m+bits).(n−bits), half up.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static long RoundWithRoom(long value, int bits) => (value + ((1L << bits) >> 1)) >> bits;

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

    /// <summary>Multiplies by a power of two, or divides by it toward minus infinity.</summary>
    /// <param name="value">Any.</param>
    /// <param name="bits">Above 0 multiplies; below 0 divides.</param>
    /// <remarks>
    /// Input: 32 bits times 2^30 at most, or 63 bits and a division.
    /// Product: none.
    /// Accumulator: 64 bits.
    /// Worst case: factors above 2^30 count as 2^30.
    /// Output: floor where it divides.
    /// </remarks>
    public static long Shifted(long value, int bits) => bits >= 0 ? value << (bits > 30 ? 30 : bits) : value >> (bits < -62 ? 62 : -bits);

    /// <summary>Clips to a symmetric range of 31 bits at most.</summary>
    /// <param name="value">Any.</param>
    /// <param name="limit">Largest magnitude that passes.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Narrow(long value, int limit)
    {
        bool passes = unchecked((ulong)(value + limit)) <= 2 * (ulong)(uint)limit;
        return passes ? (int)value : value < 0 ? -limit : limit;
    }

    /// <summary>The number of bits of a number: the smallest b with value &lt; 2^b.</summary>
    /// <param name="value">0 or more.</param>
    /// <remarks>
    /// Input: 63 bits unsigned.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: 63.
    /// Output: 0 to 63; counts leading zeros, one instruction on most cores.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Bits(long value) => 64 - BitOperations.LeadingZeroCount((ulong)value);

    /// <summary>The number of bits of a number: the smallest b with value &lt; 2^b.</summary>
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

    /// <summary>Logarithm to base 2, the mantissa taken as a parabola.</summary>
    /// <param name="value">0 or more.</param>
    /// <returns>256 log2(value), off by at most 4; 0 for a value of 0.</returns>
    /// <remarks>
    /// Input: 63 bits unsigned.
    /// Product: mantissa 8 bits twice: 16 bits.
    /// Accumulator: 32 bits.
    /// Worst case: 63 × 256.
    /// Output: UQ6.8. log2(1 + m) ≈ m + 0.34 m (1 − m), off by less than 0.01.
    /// </remarks>
    public static int Log2In256(long value)
    {
        int bits = Bits(value);
        if (bits == 0)
        {
            return 0;
        }

        int exponent = bits - 1;
        long mantissa = exponent >= 8 ? value >> (exponent - 8) : value << (8 - exponent);
        int m = (int)mantissa & 255;
        return (exponent << 8) + m + Shift.Round(m * (256 - m) * 87, 16);
    }

    /// <summary>Quotient, rounded to nearest, without the clip at 31 bits of <see cref="LongDivision"/>.</summary>
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
            remainder -= denominator & unchecked(0u - fits);
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
