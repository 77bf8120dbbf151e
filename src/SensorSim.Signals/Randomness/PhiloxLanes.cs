// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary><see cref="Philox"/> for four consecutive counters at once, one in each 64-bit lane; needs AVX2.</summary>
internal static class PhiloxLanes
{
    /// <summary>Words that four counters give.</summary>
    public const int WordCount = 16;

    /// <summary>Stores the words of four consecutive counters in the order of the draws.</summary>
    /// <param name="target">First of 16 words.</param>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="key">Key.</param>
    public static void Store(ref uint target, ulong counter, ulong source, ulong key)
    {
        Vector256<ulong> w0 = Vector256.Create(counter) + Vector256.Create(0UL, 1, 2, 3);
        Vector256<ulong> w1 = w0 >>> 32;
        var w2 = Vector256.Create(source);
        var w3 = Vector256.Create(source >> 32);
        var k0 = Vector256.Create(key);
        var k1 = Vector256.Create(key >> 32);

        // Written out: in a loop the compiler keeps the state in memory.
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);
        Round(ref w0, ref w1, ref w2, ref w3, ref k0, ref k1);

        var lower = Vector256.Create(0xFFFF_FFFFUL);
        Vector256<ulong> first = (w0 & lower) | (w1 << 32);
        Vector256<ulong> second = (w2 & lower) | (w3 << 32);

        // Lane i of the one and lane i of the other are the four words of counter i.
        Vector256<ulong> even = Avx2.UnpackLow(first, second);
        Vector256<ulong> odd = Avx2.UnpackHigh(first, second);
        Avx2.Permute2x128(even, odd, 0x20).AsUInt32().StoreUnsafe(ref target);
        Avx2.Permute2x128(even, odd, 0x31).AsUInt32().StoreUnsafe(ref target, 8);
    }

    // Multiplications read only lower halves and everything else works bit by bit, so upper halves may hold anything.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Round(
        ref Vector256<ulong> c0,
        ref Vector256<ulong> c1,
        ref Vector256<ulong> c2,
        ref Vector256<ulong> c3,
        ref Vector256<ulong> k0,
        ref Vector256<ulong> k1)
    {
        Vector256<ulong> product0 = Avx2.Multiply(c0.AsUInt32(), Vector256.Create(Philox.Multiplier0).AsUInt32());
        Vector256<ulong> product1 = Avx2.Multiply(c2.AsUInt32(), Vector256.Create(Philox.Multiplier1).AsUInt32());
        c0 = (product1 >>> 32) ^ c1 ^ k0;
        c1 = product1;
        c2 = (product0 >>> 32) ^ c3 ^ k1;
        c3 = product0;
        k0 += Vector256.Create((ulong)Philox.KeyStep0);
        k1 += Vector256.Create((ulong)Philox.KeyStep1);
    }
}
