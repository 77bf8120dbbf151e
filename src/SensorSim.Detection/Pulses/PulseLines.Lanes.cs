// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>A stretch of samples, their slopes, and which of these are above thresholds, bit i for sample i.</summary>
/// <remarks>A stretch is filled up to whole vectors; what lies behind its end is nobody's.</remarks>
internal struct PulseLines
{
    /// <summary>Most samples in a stretch. So far ahead nobody looks back: some 110 of the 256 held at the rates that go in lanes.</summary>
    public const int Most = 56;

    /// <summary>The working samples.</summary>
    public Line56 Fillings;

    /// <summary>What was held in their places.</summary>
    public Line56 Older;

    /// <summary>The slopes.</summary>
    public Line56 Slopes;

    /// <summary>The slope before the first.</summary>
    public int Before;

    /// <summary>What a slope has to pass to be above.</summary>
    public int Threshold;

    /// <summary>Slopes above the threshold.</summary>
    public ulong Above;

    /// <summary>Slopes that are not positive.</summary>
    public ulong Fallen;

    /// <summary>Finds those above another threshold.</summary>
    /// <param name="threshold">The threshold.</param>
    /// <param name="count">Samples in the stretch.</param>
    public void Seek(int threshold, int count)
    {
        Threshold = threshold;
        Above = 0;
        ref int slopes = ref Slopes[0];
        for (int i = 0; i < count; i += Lanes.Count)
        {
            Above |= Mask(Vector256.GreaterThan(Vector256.LoadUnsafe(ref slopes, (nuint)i), Vector256.Create(threshold)), i);
        }
    }

    /// <summary>The highest slope of some that is positive and within a limit; 0 where there is none.</summary>
    /// <param name="from">The first of them.</param>
    /// <param name="until">The first that is none of them any more.</param>
    /// <param name="limit">The limit.</param>
    public Vector256<int> Highest(int from, int until, int limit)
    {
        ref int slopes = ref Slopes[0];
        Vector256<int> highest = Vector256<int>.Zero;
        for (int i = from & -Lanes.Count; i < until; i += Lanes.Count)
        {
            Vector256<int> slope = Counted(Vector256.LoadUnsafe(ref slopes, (nuint)i), i, from, until);
            highest = Vector256.Max(highest, slope & Vector256.LessThanOrEqual(slope, Vector256.Create(limit)));
        }

        return highest;
    }

    /// <summary>Slopes with 0 in the place of those that do not count.</summary>
    /// <param name="slope">Eight slopes.</param>
    /// <param name="at">Place of the first of the eight.</param>
    /// <param name="from">The first place that counts.</param>
    /// <param name="until">The first that does not count any more.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Counted(Vector256<int> slope, int at, int from, int until)
    {
        Vector256<int> place = Vector256<int>.Indices + Vector256.Create(at);
        return slope & Vector256.LessThan(place, Vector256.Create(until)) & Vector256.GreaterThan(place, Vector256.Create(from - 1));
    }

    /// <summary>A bit for each lane.</summary>
    /// <param name="lanes">Lanes.</param>
    /// <param name="at">Place of the first.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Mask(Vector256<int> lanes, int at) => (ulong)lanes.ExtractMostSignificantBits() << at;

    /// <summary>Fifty-six words in place.</summary>
    [InlineArray(Most)]
    public struct Line56
    {
        private int _first;
    }
}
