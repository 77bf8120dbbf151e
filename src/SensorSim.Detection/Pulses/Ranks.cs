// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Which of a few numbers stands where in their order.</summary>
public static class Ranks
{
    /// <summary>One of eight numbers by its place in their order.</summary>
    /// <param name="values">The numbers; left as they are.</param>
    /// <param name="rank">How many come before it, 0 to 7.</param>
    /// <remarks>
    /// Input: 32 bits, any common format.
    /// Product: none.
    /// Accumulator: none, comparisons only.
    /// Worst case: none.
    /// Output: one of the numbers; 19 comparisons, called once per beat or ten times a second.
    /// </remarks>
    public static int OfEight(in Word8 values, int rank)
    {
        Word8 sorted = values;
        Sort8.Sort(ref sorted);
        return sorted[rank];
    }
}
