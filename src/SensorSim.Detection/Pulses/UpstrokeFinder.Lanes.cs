// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <content>A stretch of slopes at once.</content>
public partial struct UpstrokeFinder
{
    /// <summary>Takes slopes until an upstroke ends or none is left.</summary>
    /// <param name="lines">The slopes.</param>
    /// <param name="from">The first to take.</param>
    /// <param name="until">The first not to take any more.</param>
    /// <param name="isEnd">Whether an upstroke has ended.</param>
    /// <returns>The first that was not taken.</returns>
    internal int Take(ref PulseLines lines, int from, int until, out bool isEnd)
    {
        isEnd = false;
        if (!IsRising)
        {
            from += BitOperations.TrailingZeroCount(lines.Above >> from);
            if (from >= until)
            {
                return until;
            }

            IsRising = true;
            _age = 0;
            Steepest = 0;
        }

        // Up to the first that is not positive, or the one with which it takes too long.
        int left = BitOperations.TrailingZeroCount(lines.Fallen >> from);
        int longest = _longest - _age - 1;
        int end = from + (left < longest ? left : longest);
        isEnd = end < until;
        until = isEnd ? end + 1 : until;
        Follow(ref lines, from, until);
        int last = isEnd ? end - 1 : until - 1;
        Before = last < from ? Before : lines.Slopes[last];
        if (isEnd)
        {
            After = lines.Slopes[end];
            IsRising = false;
        }

        return until;
    }

    private void Follow(ref PulseLines lines, int from, int until)
    {
        _age += until - from;
        SinceSteepest += until - from;
        int highest = AcrossLanes.Highest(lines.Highest(from, until, int.MaxValue));
        if (highest <= Steepest)
        {
            return;
        }

        // The first of the steepest counts.
        Steepest = highest;
        ref int slopes = ref lines.Slopes[0];
        for (int i = from & -Lanes.Count; i < until; i += Lanes.Count)
        {
            Vector256<int> slope = PulseLines.Counted(Vector256.LoadUnsafe(ref slopes, (nuint)i), i, from, until);
            uint here = Vector256.Equals(slope, Vector256.Create(highest)).ExtractMostSignificantBits();
            if (here != 0)
            {
                SinceSteepest = until - 1 - i - BitOperations.TrailingZeroCount(here);
                return;
            }
        }
    }
}
