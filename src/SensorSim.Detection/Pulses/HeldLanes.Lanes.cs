// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Eight neighbours of the held working samples in the lanes of a vector.</summary>
internal static class HeldLanes
{
    private const int Mask = Word256.Length - 1;

    /// <summary>Whether eight samples and those within an arm of them lie without a break.</summary>
    /// <param name="at">Place of the first of the eight.</param>
    /// <param name="arm">How far the fit reaches to either side [working samples].</param>
    public static bool Fits(int at, int arm)
    {
        int place = at & Mask;
        return place >= arm && place + Lanes.Count + arm <= Word256.Length;
    }

    /// <summary>A held sample.</summary>
    /// <param name="held">The latest 256 working samples, sample k at place k modulo 256.</param>
    /// <param name="at">Its place.</param>
    public static ref int At(in Word256 held, int at) => ref Unsafe.Add(ref MemoryMarshal.GetReference((ReadOnlySpan<int>)held), at & Mask);

    /// <summary>The eight samples a number of places later.</summary>
    /// <param name="first">The first of the eight.</param>
    /// <param name="by">How many places, within what fits.</param>
    public static Vector256<int> Near(ref int first, int by) => Vector256.LoadUnsafe(ref Unsafe.Add(ref first, by));

    /// <summary>Differences brought to 15 bits, as the fits take them one by one.</summary>
    /// <param name="difference">The differences.</param>
    /// <param name="shift">Bits that the differences lose, rounded half up.</param>
    public static Vector256<int> Clipped(Vector256<int> difference, int shift)
    {
        Vector256<int> small = (difference + Vector256.Create((1 << shift) >> 1)) >> shift;
        return Vector256.Max(Vector256.Min(small, Vector256.Create((int)short.MaxValue)), Vector256.Create(-short.MaxValue));
    }
}
