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
        Draw(counter, source, key, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
        var lower = Vector256.Create(0xFFFF_FFFFUL);
        Vector256<ulong> first = (w0 & lower) | (w1 << 32);
        Vector256<ulong> second = (w2 & lower) | (w3 << 32);

        // Lane i of the one and lane i of the other are the four words of counter i.
        Vector256<ulong> even = Avx2.UnpackLow(first, second);
        Vector256<ulong> odd = Avx2.UnpackHigh(first, second);
        Avx2.Permute2x128(even, odd, 0x20).AsUInt32().StoreUnsafe(ref target);
        Avx2.Permute2x128(even, odd, 0x31).AsUInt32().StoreUnsafe(ref target, 8);
    }

    /// <summary>Ten rounds; output word j of counter + i stands in the lower half of lane i of wj, the upper half is not defined.</summary>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="key">Key.</param>
    /// <param name="w0">Receives output word 0.</param>
    /// <param name="w1">Receives output word 1.</param>
    /// <param name="w2">Receives output word 2.</param>
    /// <param name="w3">Receives output word 3.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Draw(
        ulong counter, ulong source, ulong key, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3)
    {
        // Multiplications read only lower halves and everything else works bit by bit, so upper halves may hold anything.
        Vector256<uint> multiplier0 = Vector256.Create(Philox.Multiplier0).AsUInt32();
        Vector256<uint> multiplier1 = Vector256.Create(Philox.Multiplier1).AsUInt32();
        var step0 = Vector256.Create((ulong)Philox.KeyStep0);
        var step1 = Vector256.Create((ulong)Philox.KeyStep1);
        var k0 = Vector256.Create(key);
        var k1 = Vector256.Create(key >> 32);
        Vector256<ulong> c0 = Vector256.Create(counter) + Vector256.Create(0UL, 1, 2, 3);
        Vector256<ulong> c1 = c0 >>> 32;
        var c2 = Vector256.Create(source);
        var c3 = Vector256.Create(source >> 32);
        for (int round = 0; round < 10; round++)
        {
            Vector256<ulong> product0 = Avx2.Multiply(c0.AsUInt32(), multiplier0);
            Vector256<ulong> product1 = Avx2.Multiply(c2.AsUInt32(), multiplier1);
            c0 = (product1 >>> 32) ^ c1 ^ k0;
            c1 = product1;
            c2 = (product0 >>> 32) ^ c3 ^ k1;
            c3 = product0;
            k0 += step0;
            k1 += step1;
        }

        w0 = c0;
        w1 = c1;
        w2 = c2;
        w3 = c3;
    }
}
