// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.Links.Pacing;

/// <summary>How long things took: counts in classes of fixed number, so hours cost no more memory than a second.</summary>
/// <remarks>
/// Up to 63 µs each microsecond has a class of its own; above, every doubling is divided into 32, so a percentile is at most 1/32 too high. Longest
/// time told apart: 2^40 µs. Adding allocates nothing. Not for two threads at once.
/// </remarks>
public sealed class TimeHistogram
{
    private const int Parts = 32;
    private const int PartBits = 5;
    private const int LongestBits = 40;

    private readonly long[] _counts = new long[(LongestBits - PartBits + 1) * Parts];

    /// <summary>Times that were added.</summary>
    public long Count { get; private set; }

    /// <summary>Longest time [µs]; 0 when there is none.</summary>
    public long MaximumUs { get; private set; }

    /// <summary>Adds a time.</summary>
    /// <param name="us">The time [µs]; below 0 counts as 0.</param>
    public void Add(long us)
    {
        us = Math.Max(0, us);
        _counts[ClassOf(Math.Min(us, (1L << LongestBits) - 1))]++;
        Count++;
        MaximumUs = Math.Max(MaximumUs, us);
    }

    /// <summary>The time that a share of all does not exceed [µs]; 0 when there is none.</summary>
    /// <param name="percent">Share [%], 0 to 100.</param>
    public long PercentileUs(double percent)
    {
        if (!(percent is >= 0 and <= 100))
        {
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "A share is 0 to 100 %.");
        }

        long rank = Math.Max(1, (long)Math.Ceiling(Count * (percent / 100)));
        long seen = 0;
        for (int i = 0; i < _counts.Length; i++)
        {
            seen += _counts[i];
            if (seen >= rank)
            {
                return Math.Min(LastOf(i), MaximumUs);
            }
        }

        return MaximumUs;
    }

    /// <summary>Forgets everything.</summary>
    public void Clear()
    {
        Array.Clear(_counts);
        Count = 0;
        MaximumUs = 0;
    }

    private static int ClassOf(long us)
    {
        int shift = Math.Max(0, BitOperations.Log2((ulong)us | 1) - PartBits);
        return (shift * Parts) + (int)(us >> shift);
    }

    // The longest time of a class.
    private static long LastOf(int place)
    {
        int shift = Math.Max(0, (place / Parts) - 1);
        long part = place - (shift * Parts);
        return ((part + 1) << shift) - 1;
    }
}
