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
    /// Output: one of the numbers; 56 comparisons, called once per beat or ten times a second.
    /// </remarks>
    public static int OfEight(in Word8 values, int rank)
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            int below = 0;
            for (int j = 0; j < Word8.Length; j++)
            {
                below += values[j] < values[i] || (values[j] == values[i] && j < i) ? 1 : 0;
            }

            if (below == rank)
            {
                return values[i];
            }
        }

        return values[0];
    }
}
