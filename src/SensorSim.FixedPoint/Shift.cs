// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

/// <summary>Division by powers of two with the rounding named.</summary>
public static class Shift
{
    /// <summary>Divides by 2^bits, rounding to nearest, halves upward.</summary>
    /// <param name="value">Any word.</param>
    /// <param name="bits">0 to 31.</param>
    /// <remarks>
    /// Input: 32 bits, Qm.n.
    /// Product: none.
    /// Accumulator: 32 bits; one is added before the last bit is shifted out, when there is room for it. A single bit is added after its shift.
    /// Worst case: 2^31 − 1 with 1 bit gives 2^30.
    /// Output: Q(m+bits).(n−bits), half up, never saturates.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Round(int value, int bits) =>
        bits > 1 ? ((value >> (bits - 1)) + 1) >> 1 : bits == 0 ? value : (value >> 1) + (value & 1);

    /// <summary>Divides by 2^bits, rounding to nearest, halves upward, where there is room for the half: two instructions where <see cref="Round"/> takes three.</summary>
    /// <param name="value">A word of 31 bits and sign at most once the half is added.</param>
    /// <param name="bits">0 to 30.</param>
    /// <remarks>
    /// Input: 32 bits, Qm.n, magnitude at most 2^31 − 1 − 2^(bits − 1).
    /// Product: none.
    /// Accumulator: 32 bits, the half included.
    /// Worst case: the caller's to say.
    /// Output: Q(m+bits).(n−bits), half up, never saturates.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int RoundWithRoom(int value, int bits) => (value + ((1 << bits) >> 1)) >> bits;

    /// <summary>Divides by 2^bits, rounding toward minus infinity (biased by half a step).</summary>
    /// <param name="value">Any word.</param>
    /// <param name="bits">0 to 31.</param>
    /// <remarks>
    /// Input: 32 bits, Qm.n.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: none, the magnitude never grows.
    /// Output: Q(m+bits).(n−bits), floor.
    /// </remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Floor(int value, int bits) => value >> bits;

    /// <summary>The smallest shift that brings a magnitude down to a number of bits.</summary>
    /// <param name="magnitude">0 to 2^31 − 1.</param>
    /// <param name="bits">Bits wanted, 1 to 31.</param>
    /// <returns>The shift: 0 when the magnitude is below 2^bits already.</returns>
    /// <remarks>
    /// Input: 31 bits unsigned.
    /// Product: none.
    /// Accumulator: none.
    /// Worst case: 30 (31 bits down to 1).
    /// Output: a count of bits, from the leading zeros.
    /// </remarks>
    public static int Needed(int magnitude, int bits)
    {
        int more = 32 - BitOperations.LeadingZeroCount((uint)magnitude) - bits;
        return more < 0 ? 0 : more;
    }
}
