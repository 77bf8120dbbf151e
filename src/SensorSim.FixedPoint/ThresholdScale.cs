// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>A threshold made higher or lower by a share that is set once.</summary>
/// <remarks>
/// Input: a threshold of 31 bits unsigned; the share as what it is more than 1, Q2.10, so that 0 means as it is.
/// Product: 31 + 13 bits, in 64 bits.
/// Accumulator: 64 bits.
/// Worst case: clips at 2^31 − 1.
/// Output: the input's format, floor.
/// </remarks>
public static class ThresholdScale
{
    /// <summary>What a share is more than 1.</summary>
    /// <param name="percent">The share [percent], 25 to 400.</param>
    /// <returns>In 1/1024; 0 for 100 percent.</returns>
    public static short More1024(int percent) => (short)((((percent * 1024) + 50) / 100) - 1024);

    /// <summary>Takes the share of a threshold.</summary>
    /// <param name="threshold">The threshold, 0 or more.</param>
    /// <param name="more1024">What the share is more than 1 [1/1024].</param>
    public static int Apply(int threshold, int more1024)
    {
        long scaled = ((long)threshold * (1024 + more1024)) >> 10;
        return scaled > int.MaxValue ? int.MaxValue : (int)scaled;
    }
}
