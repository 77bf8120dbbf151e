// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>Normal draws in 256-bit lanes: the same results as one by one, to the bit; needs AVX2.</summary>
internal static class NormalLanes
{
    /// <summary>Shift that leaves exponent and upper six significand bits of a double.</summary>
    public const int RowShift = 46;

    /// <summary>What the shift makes of 1.0, the first row of the table.</summary>
    public const long FirstRow = 1023 << 6;

    /// <summary>The significand bits below the upper six.</summary>
    public const long FractionMask = (1L << RowShift) - 1;

    /// <summary>Bits of 1.0.</summary>
    public const long OneBits = 1023L << 52;

    // A row has four coefficients: the shift leaves the place of the first, with the exponent modulo 32.
    private const int PlaceShift = RowShift - 2;
    private const long PlaceMask = ((32 * 64) - 1) << 2;

    // A part of the first-level cache; a multiple of what the lanes of Philox draw together.
    private const int WordsAtOnce = 288;

    /// <summary>Adds scaled draws.</summary>
    /// <param name="buffer">Receives value + scale × draw.</param>
    /// <param name="firstIndex">Number of the first draw.</param>
    /// <param name="source">Source of the words.</param>
    /// <param name="seed">Its key.</param>
    /// <param name="scale">Standard deviation.</param>
    public static void Add(Span<double> buffer, long firstIndex, ulong source, ulong seed, double scale) =>
        Draw<Adding>(buffer, firstIndex, source, seed, scale);

    /// <summary>Writes scaled draws: 0 + scale × draw.</summary>
    /// <inheritdoc cref="Add" path="/param"/>
    public static void Fill(Span<double> buffer, long firstIndex, ulong source, ulong seed, double scale) =>
        Draw<Filling>(buffer, firstIndex, source, seed, scale);

    // Whole counters are drawn, the last ones beyond what is wanted; the words before the first wanted one are left out.
    [SkipLocalsInit]
    private static void Draw<TWay>(Span<double> buffer, long firstIndex, ulong source, ulong seed, double scale)
        where TWay : struct
    {
        Unsafe.SkipInit(out Words room);
        Span<uint> words = room;
        int head = (int)(firstIndex & 3);
        for (int i = 0; i < buffer.Length;)
        {
            int count = Math.Min(buffer.Length - i, WordsAtOnce - head);
            ulong counter = unchecked((ulong)((firstIndex + i) >> 2));
            PhiloxLanes.Store(words[..PhiloxLanes.Whole(head + count)], counter, source, seed);
            Put<TWay>(buffer.Slice(i, count), words[head..], scale);
            i += count;
            head = 0;
        }
    }

    // Behind the words of the draws stand up to three words more, which only have to be there. A method of its own: beside a call the
    // compiler would keep what the loop needs in memory.
    [MethodImpl(MethodImplOptions.NoInlining)]
    [SkipLocalsInit]
    private static void Put<TWay>(Span<double> buffer, ReadOnlySpan<uint> words, double scale)
        where TWay : struct
    {
        words = words[..((buffer.Length + Vector256<double>.Count - 1) & -Vector256<double>.Count)];
        ref double target = ref MemoryMarshal.GetReference(buffer);
        ref uint word = ref MemoryMarshal.GetReference(words);
        ref double rows = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(NormalTable.Coefficients), NormalTable.RowsAgain * 4);
        var factor = Vector256.Create(scale);
        Unsafe.SkipInit(out Vector256<ulong> places);
        nuint whole = (nuint)(buffer.Length & -Vector256<double>.Count);
        nuint i = 0;
        for (; i < whole; i += (nuint)Vector256<double>.Count)
        {
            Vector256<double> normal = FromWords(Vector128.LoadUnsafe(ref word, i), ref rows, ref places);
            Vector256<double> before = typeof(TWay) == typeof(Filling) ? Vector256<double>.Zero : Vector256.LoadUnsafe(ref target, i);
            (before + (factor * normal)).StoreUnsafe(ref target, i);
        }

        if ((int)i < buffer.Length)
        {
            Vector256<double> last = factor * FromWords(Vector128.LoadUnsafe(ref word, i), ref rows, ref places);
            double next = last.ToScalar();
            if ((int)i + 2 <= buffer.Length)
            {
                Vector128<double> before = typeof(TWay) == typeof(Filling) ? Vector128<double>.Zero : Vector128.LoadUnsafe(ref target, i);
                (before + last.GetLower()).StoreUnsafe(ref target, i);
                next = last.GetElement(2);
                i += 2;
            }

            if ((int)i < buffer.Length)
            {
                buffer[(int)i] = (typeof(TWay) == typeof(Filling) ? 0 : buffer[(int)i]) + next;
            }
        }
    }

    // InverseNormal.FromWord for each word. As a signed number the word w gives |2 w + 1| = x, with the sign that the draw has not:
    // w + 1/2 is x / 2 exactly.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> FromWords(Vector128<uint> words, ref double rows, ref Vector256<ulong> places)
    {
        Vector256<long> bits = (Avx.ConvertToVector256Double(words.AsInt32()) + Vector256.Create(0.5)).AsInt64();

        // Places go through memory: taking them out of a vector one by one costs more steps.
        places = ((bits >>> PlaceShift) & Vector256.Create(PlaceMask)).AsUInt64();
        ref ulong place = ref Unsafe.As<Vector256<ulong>, ulong>(ref places);
        Vector256<double> t = ((bits & Vector256.Create(FractionMask)) | Vector256.Create(OneBits)).AsDouble() - Vector256<double>.One;
        nuint row0 = (nuint)place;
        nuint row1 = (nuint)Unsafe.Add(ref place, 1);
        nuint row2 = (nuint)Unsafe.Add(ref place, 2);
        nuint row3 = (nuint)Unsafe.Add(ref place, 3);

        // Halves of two rows together: two further steps bring equal coefficients side by side.
        Vector256<double> lowEven = Vector256.Create(Vector128.LoadUnsafe(ref rows, row0), Vector128.LoadUnsafe(ref rows, row2));
        Vector256<double> lowOdd = Vector256.Create(Vector128.LoadUnsafe(ref rows, row1), Vector128.LoadUnsafe(ref rows, row3));
        Vector256<double> highEven = Vector256.Create(Vector128.LoadUnsafe(ref rows, row0 + 2), Vector128.LoadUnsafe(ref rows, row2 + 2));
        Vector256<double> highOdd = Vector256.Create(Vector128.LoadUnsafe(ref rows, row1 + 2), Vector128.LoadUnsafe(ref rows, row3 + 2));
        Vector256<double> c0 = Avx.UnpackLow(lowEven, lowOdd);
        Vector256<double> c1 = Avx.UnpackHigh(lowEven, lowOdd);
        Vector256<double> c2 = Avx.UnpackLow(highEven, highOdd);
        Vector256<double> c3 = Avx.UnpackHigh(highEven, highOdd);
        Vector256<double> cubic = c0 + (t * (c1 + (t * (c2 + (t * c3)))));
        return (Vector256.AndNot(Vector256.Create(long.MinValue), bits) ^ cubic.AsInt64()).AsDouble();
    }

    // Up to three words behind the last ones are loaded and dropped.
    [InlineArray(WordsAtOnce + 4)]
    private struct Words
    {
        private uint _first;
    }

    private readonly struct Adding;

    private readonly struct Filling;
}
