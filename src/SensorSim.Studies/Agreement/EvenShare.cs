// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.Studies.Agreement;

/// <summary>Some of many rows, so that every point, seed and person has its share.</summary>
public static class EvenShare
{
    private const double GoldenSection = 0.6180339887498949;

    /// <summary>Which rows.</summary>
    /// <param name="count">How many there are, in the order of points, seeds and persons.</param>
    /// <param name="most">How many are wanted at most.</param>
    /// <returns>Their numbers, ascending; all of them when there are no more.</returns>
    /// <remarks>
    /// Persons follow each other row by row, seeds after so many persons: every so manieth row would fall into step with them and leave most of them out. A step round
    /// and round that shares no factor with the number of rows meets as many of each person, of each seed and, near the golden section, of each point (but for one).
    /// </remarks>
    public static int[] Of(int count, int most)
    {
        if (count <= most)
        {
            return [.. Enumerable.Range(0, count)];
        }

        int step = Math.Max(1, (int)(count * GoldenSection));
        while (BigInteger.GreatestCommonDivisor(step, count) != 1)
        {
            step++;
        }

        return [.. Enumerable.Range(0, most).Select(i => (int)((long)i * step % count)).Order()];
    }
}
