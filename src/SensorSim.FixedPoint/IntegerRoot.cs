// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.FixedPoint;

/// <summary>Square root of whole numbers by shifts, subtractions and comparisons.</summary>
public static class IntegerRoot
{
    /// <summary>The largest whole number whose square does not exceed the value.</summary>
    /// <param name="value">Any word.</param>
    /// <remarks>
    /// Input: UQ32.0 (or UQ(32−2n).2n, giving UQ(16−n).n).
    /// Product: none; one bit of the root for each step, 16 at most.
    /// Accumulator: 32 bits, remainder and twice the root side by side.
    /// Worst case: 2^32 − 1 gives 65,535.
    /// Output: UQ16.0, floor.
    /// </remarks>
    public static uint Floor(uint value)
    {
        // From the highest even place at which the value has a bit, and without a jump: each outcome is as likely as the other.
        uint root = 0;
        for (uint bit = 1u << ((31 - BitOperations.LeadingZeroCount(value | 1)) & ~1); bit != 0; bit >>= 2)
        {
            uint trial = root + bit;
            uint fits = value >= trial ? uint.MaxValue : 0;
            root = (root >> 1) + (bit & fits);
            value -= trial & fits;
        }

        return root;
    }
}
