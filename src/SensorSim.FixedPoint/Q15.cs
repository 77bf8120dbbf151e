// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>Products in Q1.15 (sign bit counted): a word stands for word / 2^15, −1 to 1 − 2^−15.</summary>
public static class Q15
{
    /// <summary>Product, rounded to nearest, halves upward.</summary>
    /// <param name="a">First factor, Q1.15.</param>
    /// <param name="b">Second factor, Q1.15.</param>
    /// <remarks>
    /// Input: Q1.15 twice.
    /// Product: Q2.30 in 32 bits.
    /// Accumulator: Q2.30 plus half a step, one guard bit.
    /// Worst case: −1 × −1 = +1, the one case that clips.
    /// Output: Q1.15, half up, saturating.
    /// </remarks>
    public static short Multiply(short a, short b) => Sat.Narrow16(Shift.Round(a * b, 15));

    /// <summary>Product, rounded toward minus infinity (biased by half a step; one addition cheaper).</summary>
    /// <param name="a">First factor, Q1.15.</param>
    /// <param name="b">Second factor, Q1.15.</param>
    /// <remarks>
    /// Input: Q1.15 twice.
    /// Product: Q2.30 in 32 bits.
    /// Accumulator: none.
    /// Worst case: −1 × −1 = +1, the one case that clips.
    /// Output: Q1.15, floor, saturating.
    /// </remarks>
    public static short MultiplyFloor(short a, short b) => Sat.Narrow16(Shift.Floor(a * b, 15));
}
