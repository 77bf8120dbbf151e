// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary><see cref="Philox"/> for eight or sixteen consecutive counters at once, one in each 64-bit lane; needs AVX-512.</summary>
internal static class WidePhiloxLanes
{
    /// <summary>Words that eight counters give.</summary>
    public const int WordCount = 32;

    private const int Rounds = 10;

    /// <summary>Whether the processor has the lanes and is not slowed down by them.</summary>
    public static bool AreThere => Vector512.IsHardwareAccelerated && Avx512F.IsSupported;

    /// <summary>Stores 32 words in the order of the draws.</summary>
    /// <param name="target">First of them.</param>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="key">Key.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void StoreEight(ref uint target, ulong counter, ulong source, ulong key)
    {
        Begin(counter, source, out Vector512<ulong> w0, out Vector512<ulong> w1, out Vector512<ulong> w2, out Vector512<ulong> w3);
        var k0 = Vector512.Create(key);
        var k1 = Vector512.Create(key >> 32);
        for (int round = 0; round < Rounds; round++)
        {
            Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
            k0 += Vector512.Create((ulong)Philox.KeyStep0);
            k1 += Vector512.Create((ulong)Philox.KeyStep1);
        }

        End(ref target, w0, w1, w2, w3);
    }

    /// <summary>Stores 64 words in the order of the draws: two eights whose rounds do not wait for each other.</summary>
    /// <inheritdoc cref="StoreEight" path="/param"/>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void StoreSixteen(ref uint target, ulong counter, ulong source, ulong key)
    {
        Begin(counter, source, out Vector512<ulong> w0, out Vector512<ulong> w1, out Vector512<ulong> w2, out Vector512<ulong> w3);
        Begin(unchecked(counter + 8), source, out Vector512<ulong> v0, out Vector512<ulong> v1, out Vector512<ulong> v2, out Vector512<ulong> v3);
        var k0 = Vector512.Create(key);
        var k1 = Vector512.Create(key >> 32);
        for (int round = 0; round < Rounds; round++)
        {
            Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
            Round(ref v0, ref v1, ref v2, ref v3, k0, k1);
            k0 += Vector512.Create((ulong)Philox.KeyStep0);
            k1 += Vector512.Create((ulong)Philox.KeyStep1);
        }

        End(ref target, w0, w1, w2, w3);
        End(ref Unsafe.Add(ref target, WordCount), v0, v1, v2, v3);
    }

    // The counters stand in the lanes in such an order that the words come out in theirs.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Begin(
        ulong counter, ulong source, out Vector512<ulong> c0, out Vector512<ulong> c1, out Vector512<ulong> c2, out Vector512<ulong> c3)
    {
        c0 = Vector512.Create(counter) + Vector512.Create(0UL, 4, 1, 5, 2, 6, 3, 7);
        c1 = c0 >>> 32;
        c2 = Vector512.Create(source);
        c3 = Vector512.Create(source >> 32);
    }

    // As in PhiloxLanes: upper halves may hold anything.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Round(
        ref Vector512<ulong> c0,
        ref Vector512<ulong> c1,
        ref Vector512<ulong> c2,
        ref Vector512<ulong> c3,
        Vector512<ulong> k0,
        Vector512<ulong> k1)
    {
        Vector512<ulong> product0 = Avx512F.Multiply(c0.AsUInt32(), Vector512.Create(Philox.Multiplier0).AsUInt32());
        Vector512<ulong> product1 = Avx512F.Multiply(c2.AsUInt32(), Vector512.Create(Philox.Multiplier1).AsUInt32());
        c0 = (product1 >>> 32) ^ c1 ^ k0;
        c1 = product1;
        c2 = (product0 >>> 32) ^ c3 ^ k1;
        c3 = product0;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void End(ref uint target, Vector512<ulong> w0, Vector512<ulong> w1, Vector512<ulong> w2, Vector512<ulong> w3)
    {
        var lower = Vector512.Create(0xFFFF_FFFFUL);
        Vector512<ulong> first = (w0 & lower) | (w1 << 32);
        Vector512<ulong> second = (w2 & lower) | (w3 << 32);

        // Even lanes hold counters 0 to 3, odd ones 4 to 7; lane i of the one and of the other are the four words of a counter.
        Avx512F.UnpackLow(first, second).AsUInt32().StoreUnsafe(ref target);
        Avx512F.UnpackHigh(first, second).AsUInt32().StoreUnsafe(ref target, 16);
    }
}
