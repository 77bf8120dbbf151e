// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <content>A stretch of samples at once.</content>
public partial struct QrsEnergy
{
    /// <summary>Puts what is held in the order of time.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Align()
    {
        if ((_sum.At & (Word32.Length - 1)) != 0)
        {
            _held.Turn(_sum.At);
            _sum.At = 0;
        }
    }

    /// <summary>Replaces the band-passed values of a stretch by their integrated magnitude; what is held stays until <see cref="Hold"/>.</summary>
    /// <param name="lines">The values; gets the magnitudes too.</param>
    /// <param name="count">How many values there are.</param>
    internal readonly void Run(ref BeatLines lines, int count)
    {
        _held.Held.CopyTo(lines.Magnitudes);
        ref int values = ref lines.Values[0];
        ref int newest = ref lines.Magnitudes[BeatLines.Most];
        ref int leaving = ref _held.Leaving(ref newest);
        LaneDelay delay = _held.Delay;
        Vector256<int> before = Vector256.LoadUnsafe(ref Unsafe.Subtract(ref leaving, Lanes.Count));
        Vector256<int> sum = Vector256.Create(_sum.Value);
        for (nuint i = 0; i < (nuint)count; i += Lanes.Count)
        {
            // Unsigned, as one by one: the magnitude of the lowest word does not fit and clips as well.
            Vector256<uint> magnitude = Vector256.Min(Vector256.Abs(Vector256.LoadUnsafe(ref values, i)).AsUInt32(), Vector256.Create((uint)Ceiling));
            magnitude.AsInt32().StoreUnsafe(ref newest, i);
            Vector256<int> here = Vector256.LoadUnsafe(ref leaving, i);
            Vector256<int> all = RunningSum.Of(magnitude.AsInt32() - delay.Of(here, before), sum);
            all.StoreUnsafe(ref values, i);
            before = here;
            sum = RunningSum.Last(all);
        }
    }

    /// <summary>Holds what came up to a sample of the stretch.</summary>
    /// <param name="lines">The magnitudes.</param>
    /// <param name="count">Samples that count.</param>
    /// <param name="sum">The sum with the last of them.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal void Hold(ref BeatLines lines, int count, int sum)
    {
        ReadOnlySpan<int> magnitudes = lines.Magnitudes;
        _held.Hold(magnitudes[count..]);
        _sum.At = 0;
        _sum.Value = sum;
    }
}
