// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary><see cref="Philox"/> for four or eight consecutive counters at once, one in each 64-bit lane; needs AVX2.</summary>
/// <remarks>
/// Counters that differ in their lowest word only share what the first two rounds make of the other words: half of these rounds is done once
/// for all of them.
/// </remarks>
internal static class PhiloxLanes
{
    /// <summary>Words that four counters give.</summary>
    public const int WordCount = 16;

    private const int WordsEach = 4;

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
                WidePhiloxLanes.StoreSixteen(ref words[done], unchecked(counter + (ulong)(done / WordsEach)), source, key);
            }

            if (done + WidePhiloxLanes.WordCount <= words.Length)
            {
                WidePhiloxLanes.StoreEight(ref words[done], unchecked(counter + (ulong)(done / WordsEach)), source, key);
                done += WidePhiloxLanes.WordCount;
            }
        }

        if (done < words.Length)
        {
            words = words[done..];
            counter = unchecked(counter + (ulong)(done / WordsEach));
            if (unchecked((uint)counter) <= uint.MaxValue - (uint)(words.Length / WordsEach))
            {
                StoreNear(ref MemoryMarshal.GetReference(words), words.Length, counter, source, key);
            }
            else
            {
                StoreEach(words, counter, source, key);
            }
        }
    }

    // Counters whose upper word changes on the way: once in 2^32 of them.
    private static void StoreEach(Span<uint> words, ulong counter, ulong source, ulong key)
    {
        for (int i = 0; i + WordsEach <= words.Length; i += WordsEach)
        {
            Philox.Draw(unchecked(counter++), source, key, out ulong low, out ulong high);
            words[i] = unchecked((uint)low);
            words[i + 1] = (uint)(low >> 32);
            words[i + 2] = unchecked((uint)high);
            words[i + 3] = (uint)(high >> 32);
        }
    }

    // A method of its own: beside a call the compiler would keep the state of the rounds in memory.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void StoreNear(ref uint target, int count, ulong counter, ulong source, ulong key)
    {
        var shared = new Shared(counter, source, key);

        // The counters stand in the lanes in such an order that the words come out in theirs.
        Vector256<ulong> counters = Vector256.Create(counter) + Vector256.Create(0UL, 2, 1, 3);
        for (; count >= 2 * WordCount; count -= 2 * WordCount)
        {
            Begin(shared, counters, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
            Begin(
                shared,
                counters + Vector256.Create(4UL),
                out Vector256<ulong> v0,
                out Vector256<ulong> v1,
                out Vector256<ulong> v2,
                out Vector256<ulong> v3);
            Vector256<ulong> k0 = shared.Key0;
            Vector256<ulong> k1 = shared.Key1;
            for (int round = Shared.Rounds; round < Philox.Rounds - 1; round++)
            {
                // Two fours whose rounds do not wait for each other.
                k0 += Vector256.Create((ulong)Philox.KeyStep0);
                k1 += Vector256.Create((ulong)Philox.KeyStep1);
                Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
                Round(ref v0, ref v1, ref v2, ref v3, k0, k1);
            }

            k0 += Vector256.Create((ulong)Philox.KeyStep0);
            k1 += Vector256.Create((ulong)Philox.KeyStep1);
            End(ref target, w0, w1, w2, w3, k0, k1);
            End(ref Unsafe.Add(ref target, WordCount), v0, v1, v2, v3, k0, k1);
            target = ref Unsafe.Add(ref target, 2 * WordCount);
            counters += Vector256.Create(8UL);
        }

        if (count > 0)
        {
            Begin(shared, counters, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
            Vector256<ulong> k0 = shared.Key0;
            Vector256<ulong> k1 = shared.Key1;
            for (int round = Shared.Rounds; round < Philox.Rounds - 1; round++)
            {
                k0 += Vector256.Create((ulong)Philox.KeyStep0);
                k1 += Vector256.Create((ulong)Philox.KeyStep1);
                Round(ref w0, ref w1, ref w2, ref w3, k0, k1);
            }

            End(ref target, w0, w1, w2, w3, k0 + Vector256.Create((ulong)Philox.KeyStep0), k1 + Vector256.Create((ulong)Philox.KeyStep1));
        }
    }

    // The first three rounds. Word 0 of a counter reaches only words 2 and 3 in the first one, and all but word 3 in the second one.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Begin(
        in Shared shared,
        Vector256<ulong> counters,
        out Vector256<ulong> c0,
        out Vector256<ulong> c1,
        out Vector256<ulong> c2,
        out Vector256<ulong> c3)
    {
        Vector256<ulong> first = Product(counters, Philox.Multiplier0);
        Vector256<ulong> second = Product((first >>> 32) ^ shared.First2, Philox.Multiplier1);
        Vector256<ulong> product0 = Product((second >>> 32) ^ shared.Second0, Philox.Multiplier0);
        Vector256<ulong> product1 = Product(first ^ shared.Second2, Philox.Multiplier1);
        c0 = (product1 >>> 32) ^ (second ^ shared.Key0);
        c1 = product1;
        c2 = (product0 >>> 32) ^ shared.Third2;
        c3 = product0;
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
        Vector256<ulong> product0 = Product(c0, Philox.Multiplier0);
        Vector256<ulong> product1 = Product(c2, Philox.Multiplier1);
        c0 = (product1 >>> 32) ^ (c1 ^ k0);
        c1 = product1;
        c2 = (product0 >>> 32) ^ (c3 ^ k1);
        c3 = product0;
    }

    // The last round. Its halves change places where they stand: words 0 and 1, and words 2 and 3, in one lane each.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void End(
        ref uint target,
        Vector256<ulong> c0,
        Vector256<ulong> c1,
        Vector256<ulong> c2,
        Vector256<ulong> c3,
        Vector256<ulong> k0,
        Vector256<ulong> k1)
    {
        var lower = Vector256.Create(0xFFFF_FFFFUL);
        Vector256<uint> first = Avx2.Shuffle(Product(c2, Philox.Multiplier1).AsUInt32(), 0b10_11_00_01) ^ ((c1 ^ k0) & lower).AsUInt32();
        Vector256<uint> second = Avx2.Shuffle(Product(c0, Philox.Multiplier0).AsUInt32(), 0b10_11_00_01) ^ ((c3 ^ k1) & lower).AsUInt32();

        // Even lanes hold counters 0 and 1, odd ones 2 and 3; lane i of the one and of the other are the four words of a counter.
        Avx2.UnpackLow(first.AsUInt64(), second.AsUInt64()).AsUInt32().StoreUnsafe(ref target);
        Avx2.UnpackHigh(first.AsUInt64(), second.AsUInt64()).AsUInt32().StoreUnsafe(ref target, 8);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Product(Vector256<ulong> lower, ulong multiplier) =>
        Avx2.Multiply(lower.AsUInt32(), Vector256.Create(multiplier).AsUInt32());

    // What the first three rounds make of everything but word 0 of a counter, ready to be put together with what becomes of that.
    private readonly struct Shared
    {
        public const int Rounds = 3;

        public readonly Vector256<ulong> First2;
        public readonly Vector256<ulong> Second0;
        public readonly Vector256<ulong> Second2;
        public readonly Vector256<ulong> Third2;
        public readonly Vector256<ulong> Key0;
        public readonly Vector256<ulong> Key1;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Shared(ulong counter, ulong source, ulong key)
        {
            unchecked
            {
                uint k0 = (uint)key;
                uint k1 = (uint)(key >> 32);
                First2 = Vector256.Create((ulong)((uint)(source >> 32) ^ k1));
                ulong product1 = Philox.Multiplier1 * (uint)source;
                ulong product0 = Philox.Multiplier0 * ((uint)(product1 >> 32) ^ (uint)(counter >> 32) ^ k0);
                k0 += Philox.KeyStep0;
                k1 += Philox.KeyStep1;
                Second0 = Vector256.Create((ulong)((uint)product1 ^ k0));
                Second2 = Vector256.Create((ulong)((uint)(product0 >> 32) ^ k1));
                k0 += Philox.KeyStep0;
                k1 += Philox.KeyStep1;
                Third2 = Vector256.Create((ulong)((uint)product0 ^ k1));
                Key0 = Vector256.Create((ulong)k0);
                Key1 = Vector256.Create((ulong)k1);
            }
        }
    }
}
