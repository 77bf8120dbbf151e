// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary><see cref="Philox"/> for four or eight consecutive counters at once, one in each 64-bit lane; needs AVX2.</summary>
/// <remarks>
/// <para>Counters that differ in their lowest word only share what the first two rounds make of the other words: half of these rounds is done once
/// for all of them.</para>
/// <para>Lanes of eight with AVX-512 draw no faster: while they are at work a processor has two ports for vectors, with these it has three,
/// and what comes before and after has them too. Rounds stand one after the other, not in a loop: their words change places by name alone.</para>
/// </remarks>
internal static class PhiloxLanes
{
    /// <summary>Words that four counters give.</summary>
    public const int WordCount = 16;

    private const int WordsEach = 4;

    /// <summary>How many words are drawn where so many are wanted.</summary>
    public static int Whole(int wanted) => (wanted + WordCount - 1) & -WordCount;

    /// <summary>Stores the words of consecutive counters in the order of the draws.</summary>
    /// <param name="words">Receives them; its length is a multiple of 16.</param>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="key">Key.</param>
    public static void Store(Span<uint> words, ulong counter, ulong source, ulong key)
    {
        if (unchecked((uint)counter) <= uint.MaxValue - (uint)(words.Length / WordsEach))
        {
            StoreNear(ref MemoryMarshal.GetReference(words), words.Length, counter, source, key);
        }
        else
        {
            StoreEach(words, counter, source, key);
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
        var keys = new Keys(key);

        // The counters stand in the lanes in such an order that the words come out in theirs.
        Vector256<ulong> counters = Vector256.Create(counter) + Vector256.Create(0UL, 2, 1, 3);
        for (; count >= 2 * WordCount; count -= 2 * WordCount)
        {
            // Two fours whose rounds do not wait for each other.
            var first = new Four(shared, keys, counters);
            var second = new Four(shared, keys, counters + Vector256.Create(4UL));
            Keys now = keys.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.Round(now);
            second.Round(now);
            now = now.Next();
            first.End(now, ref target);
            second.End(now, ref Unsafe.Add(ref target, WordCount));
            target = ref Unsafe.Add(ref target, 2 * WordCount);
            counters += Vector256.Create(8UL);
        }

        if (count > 0)
        {
            var last = new Four(shared, keys, counters);
            for (int round = Keys.RoundsBefore; round < Philox.Rounds - 1; round++)
            {
                keys = keys.Next();
                last.Round(keys);
            }

            last.End(keys.Next(), ref target);
        }
    }

    // Only lower halves count: the multiplier may stand in the upper ones too. (Made from 64 bits, .NET 10 gives without optimisation and with
    // AVX-512 an instruction that takes 32 of them.)
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Product(Vector256<ulong> lower, ulong multiplier) =>
        Avx2.Multiply(lower.AsUInt32(), Vector256.Create((uint)multiplier));

    // Words 0 to 3 of four counters. Multiplications read only lower halves and everything else works bit by bit, so upper halves may hold anything.
    private struct Four
    {
        private Vector256<ulong> _c0;
        private Vector256<ulong> _c1;
        private Vector256<ulong> _c2;
        private Vector256<ulong> _c3;

        // The first three rounds. Word 0 of a counter reaches only words 2 and 3 in the first one, and all but word 3 in the second one.
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Four(in Shared shared, in Keys keys, Vector256<ulong> counters)
        {
            Vector256<ulong> first = Product(counters, Philox.Multiplier0);
            Vector256<ulong> second = Product((first >>> 32) ^ shared.First2, Philox.Multiplier1);
            _c3 = Product((second >>> 32) ^ shared.Second0, Philox.Multiplier0);
            _c1 = Product(first ^ shared.Second2, Philox.Multiplier1);
            _c0 = (_c1 >>> 32) ^ (second ^ keys.Key0);
            _c2 = (_c3 >>> 32) ^ shared.Third2;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Round(in Keys keys)
        {
            Vector256<ulong> product0 = Product(_c0, Philox.Multiplier0);
            Vector256<ulong> product1 = Product(_c2, Philox.Multiplier1);
            _c0 = (product1 >>> 32) ^ (_c1 ^ keys.Key0);
            _c1 = product1;
            _c2 = (product0 >>> 32) ^ (_c3 ^ keys.Key1);
            _c3 = product0;
        }

        // The last round. Its halves change places where they stand: words 0 and 1, and words 2 and 3, in one lane each.
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public readonly void End(in Keys keys, ref uint target)
        {
            var lower = Vector256.Create(0xFFFF_FFFFUL);
            Vector256<uint> product0 = Product(_c0, Philox.Multiplier0).AsUInt32();
            Vector256<uint> product1 = Product(_c2, Philox.Multiplier1).AsUInt32();
            Vector256<uint> first = Avx2.Shuffle(product1, 0b10_11_00_01) ^ ((_c1 ^ keys.Key0) & lower).AsUInt32();
            Vector256<uint> second = Avx2.Shuffle(product0, 0b10_11_00_01) ^ ((_c3 ^ keys.Key1) & lower).AsUInt32();

            // Even lanes hold counters 0 and 1, odd ones 2 and 3; lane i of the one and of the other are the four words of a counter.
            Avx2.UnpackLow(first.AsUInt64(), second.AsUInt64()).AsUInt32().StoreUnsafe(ref target);
            Avx2.UnpackHigh(first.AsUInt64(), second.AsUInt64()).AsUInt32().StoreUnsafe(ref target, 8);
        }
    }

    // The keys of a round, in every lane.
    private readonly struct Keys
    {
        public const int RoundsBefore = 3;

        public readonly Vector256<ulong> Key0;
        public readonly Vector256<ulong> Key1;

        // Those of the third round.
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Keys(ulong key)
        {
            unchecked
            {
                Key0 = Vector256.Create((ulong)((uint)key + (2 * Philox.KeyStep0)));
                Key1 = Vector256.Create((ulong)((uint)(key >> 32) + (2 * Philox.KeyStep1)));
            }
        }

        private Keys(Vector256<ulong> key0, Vector256<ulong> key1)
        {
            Key0 = key0;
            Key1 = key1;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Keys Next() => new(Key0 + Vector256.Create((ulong)Philox.KeyStep0), Key1 + Vector256.Create((ulong)Philox.KeyStep1));
    }

    // What the first three rounds make of everything but word 0 of a counter, ready to be put together with what becomes of that.
    private readonly struct Shared
    {
        public readonly Vector256<ulong> First2;
        public readonly Vector256<ulong> Second0;
        public readonly Vector256<ulong> Second2;
        public readonly Vector256<ulong> Third2;

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
                Third2 = Vector256.Create((ulong)((uint)product0 ^ (k1 + Philox.KeyStep1)));
            }
        }
    }
}
