// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary><see cref="Philox"/> for four or eight consecutive counters at once, one in each 64-bit lane; needs AVX2.</summary>
internal static class PhiloxLanes
{
    /// <summary>Words that four counters give.</summary>
    public const int WordCount = 16;

    private const int Rounds = 10;

    /// <summary>How many words are drawn best where so many are wanted: the widest lanes take no longer than narrow ones.</summary>
    public static int Whole(int wanted)
    {
        int together = WidePhiloxLanes.AreThere ? WidePhiloxLanes.WordCount : WordCount;
        return (wanted + together - 1) & -together;
    }

    /// <summary>Stores the words of consecutive counters in the order of the draws.</summary>
    /// <param name="words">Receives them; its length is a multiple of 16.</param>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="key">Key.</param>
    public static void Store(Span<uint> words, ulong counter, ulong source, ulong key)
    {
        int done = 0;
        if (WidePhiloxLanes.AreThere)
        {
            for (; done + (2 * WidePhiloxLanes.WordCount) <= words.Length; done += 2 * WidePhiloxLanes.WordCount)
            {
                WidePhiloxLanes.StoreSixteen(ref words[done], unchecked(counter + (ulong)(done / 4)), source, key);
            }

            if (done + WidePhiloxLanes.WordCount <= words.Length)
            {
                WidePhiloxLanes.StoreEight(ref words[done], unchecked(counter + (ulong)(done / 4)), source, key);
                done += WidePhiloxLanes.WordCount;
            }
        }

        for (; done + (2 * WordCount) <= words.Length; done += 2 * WordCount)
        {
            StoreEight(ref words[done], unchecked(counter + (ulong)(done / 4)), source, key);
        }

        if (done < words.Length)
        {
            StoreFour(ref words[done], unchecked(counter + (ulong)(done / 4)), source, key);
        }
    }

    // A method of its own: beside a call the compiler would keep the state of the rounds in memory.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void StoreFour(ref uint target, ulong counter, ulong source, ulong key)
    {
        Begin(counter, source, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
        var k0 = Vector256.Create(key);
        var k1 = Vector256.Create(key >> 32);
        for (int round = 0; round < Rounds; round++)
        {
            Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
            k0 += Vector256.Create((ulong)Philox.KeyStep0);
            k1 += Vector256.Create((ulong)Philox.KeyStep1);
        }

        End(ref target, w0, w1, w2, w3);
    }

    // Two fours whose rounds do not wait for each other.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void StoreEight(ref uint target, ulong counter, ulong source, ulong key)
    {
        Begin(counter, source, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
        Begin(unchecked(counter + 4), source, out Vector256<ulong> v0, out Vector256<ulong> v1, out Vector256<ulong> v2, out Vector256<ulong> v3);
        var k0 = Vector256.Create(key);
        var k1 = Vector256.Create(key >> 32);
        for (int round = 0; round < Rounds; round++)
        {
            Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
            Round(ref v0, ref v1, ref v2, ref v3, k0, k1);
            k0 += Vector256.Create((ulong)Philox.KeyStep0);
            k1 += Vector256.Create((ulong)Philox.KeyStep1);
        }

        End(ref target, w0, w1, w2, w3);
        End(ref Unsafe.Add(ref target, WordCount), v0, v1, v2, v3);
    }

    // The counters stand in the lanes in such an order that the words come out in theirs.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Begin(
        ulong counter, ulong source, out Vector256<ulong> c0, out Vector256<ulong> c1, out Vector256<ulong> c2, out Vector256<ulong> c3)
    {
        c0 = Vector256.Create(counter) + Vector256.Create(0UL, 2, 1, 3);
        c1 = c0 >>> 32;
        c2 = Vector256.Create(source);
        c3 = Vector256.Create(source >> 32);
    }

    // Multiplications read only lower halves and everything else works bit by bit, so upper halves may hold anything.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Round(
        ref Vector256<ulong> c0,
        ref Vector256<ulong> c1,
        ref Vector256<ulong> c2,
        ref Vector256<ulong> c3,
        Vector256<ulong> k0,
        Vector256<ulong> k1)
    {
        Vector256<ulong> product0 = Avx2.Multiply(c0.AsUInt32(), Vector256.Create(Philox.Multiplier0).AsUInt32());
        Vector256<ulong> product1 = Avx2.Multiply(c2.AsUInt32(), Vector256.Create(Philox.Multiplier1).AsUInt32());
        c0 = (product1 >>> 32) ^ c1 ^ k0;
        c1 = product1;
        c2 = (product0 >>> 32) ^ c3 ^ k1;
        c3 = product0;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void End(ref uint target, Vector256<ulong> w0, Vector256<ulong> w1, Vector256<ulong> w2, Vector256<ulong> w3)
    {
        var lower = Vector256.Create(0xFFFF_FFFFUL);
        Vector256<ulong> first = (w0 & lower) | (w1 << 32);
        Vector256<ulong> second = (w2 & lower) | (w3 << 32);

        // Even lanes hold counters 0 and 1, odd ones 2 and 3; lane i of the one and of the other are the four words of a counter.
        Avx2.UnpackLow(first, second).AsUInt32().StoreUnsafe(ref target);
        Avx2.UnpackHigh(first, second).AsUInt32().StoreUnsafe(ref target, 8);
    }
}
