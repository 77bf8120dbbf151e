// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>What the movement stages need of numbers of 64 bits: division by powers of two, and logarithms.</summary>
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
    public static int Narrow(long value, int limit) => value > limit ? limit : value < -limit ? -limit : (int)value;

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
}
