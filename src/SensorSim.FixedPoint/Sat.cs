// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Arithmetic that stops at the rails of its word instead of wrapping.</summary>
public static class Sat
{
    /// <summary>Saturating sum.</summary>
    /// <param name="a">First term.</param>
    /// <param name="b">Second term.</param>
    /// <remarks>
    /// Input: two words of 32 bits, same format.
    /// Product: none.
    /// Accumulator: 32 bits, wrapped sum inspected by its signs, no guard bit needed.
    /// Worst case: both at a rail gives that rail.
    /// Output: same format, exact or clipped, no rounding.
    /// </remarks>
    public static int Add32(int a, int b)
    {
        int sum = unchecked(a + b);
        return ((a ^ sum) & (b ^ sum)) < 0 ? (sum < 0 ? int.MaxValue : int.MinValue) : sum;
    }

    /// <summary>Saturating difference.</summary>
    /// <param name="a">Minuend.</param>
    /// <param name="b">Subtrahend.</param>
    /// <remarks>
    /// Input: two words of 32 bits, same format.
    /// Product: none.
    /// Accumulator: 32 bits, wrapped difference inspected by its signs.
    /// Worst case: lowest minus highest gives the lowest.
    /// Output: same format, exact or clipped, no rounding.
    /// </remarks>
    public static int Sub32(int a, int b)
    {
        int difference = unchecked(a - b);
        return ((a ^ b) & (a ^ difference)) < 0 ? (difference < 0 ? int.MaxValue : int.MinValue) : difference;
    }

    /// <summary>Magnitude; the lowest word, which has no positive twin, gives the highest.</summary>
    /// <param name="value">Any word.</param>
    /// <remarks>
    /// Input: 32 bits.
    /// Product: none.
    /// Accumulator: 32 bits.
    /// Worst case: −2^31 gives 2^31 − 1.
    /// Output: same format, 0 to 2^31 − 1.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Abs32(int value)
    {
        // Without a jump, for the sign of noise cannot be predicted. Of the lowest word the magnitude wraps back to it; its top bit takes one off.
        int sign = Shift.Floor(value, 31);
        uint magnitude = unchecked((uint)((value ^ sign) - sign));
        return (int)(magnitude - (magnitude >> 31));
    }

    /// <summary>Clips a word to 16 bits.</summary>
    /// <param name="value">Any word.</param>
    /// <remarks>
    /// Input: 32 bits.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: beyond ±2^15 the rail of 16 bits.
    /// Output: 16 bits, same weight of a bit, no rounding.
    /// </remarks>
    public static short Narrow16(int value) =>
        value > short.MaxValue ? short.MaxValue : value < short.MinValue ? short.MinValue : (short)value;

    /// <summary>Clips a word to a symmetric range.</summary>
    /// <param name="value">Any word.</param>
    /// <param name="limit">Largest magnitude that passes, 0 to 2^31 − 1.</param>
    /// <remarks>
    /// Input: 32 bits.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: beyond ±limit gives ±limit.
    /// Output: same format, no rounding.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Narrow(int value, int limit)
    {
        // One comparison for what passes: moved up by the limit, all that is below or above lies above, modulo 2^32.
        bool passes = unchecked((uint)(value + limit)) <= 2 * (uint)limit;
        return passes ? value : value < 0 ? -limit : limit;
    }
}
