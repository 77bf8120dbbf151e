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

    // A row has four coefficients: the shift leaves its place in bytes, with the exponent modulo 32.
    private const int PlaceShift = RowShift - 5;
    private const long PlaceMask = ((32 * 64) - 1) << 5;

    /// <summary>Adds scaled draws.</summary>
    /// <param name="buffer">Receives value + scale × draw.</param>
    /// <param name="words">Their words, and behind them up to three words more, which only have to be there.</param>
    /// <param name="scale">Standard deviation.</param>
    public static void Add(Span<double> buffer, ReadOnlySpan<uint> words, double scale) => Put<Adding>(buffer, words, scale);

    /// <summary>Writes scaled draws: 0 + scale × draw.</summary>
    /// <inheritdoc cref="Add" path="/param"/>
    public static void Fill(Span<double> buffer, ReadOnlySpan<uint> words, double scale) => Put<Filling>(buffer, words, scale);

    private static void Put<TWay>(Span<double> buffer, ReadOnlySpan<uint> words, double scale)
        where TWay : struct
    {
        words = words[..((buffer.Length + Vector256<double>.Count - 1) & -Vector256<double>.Count)];
        ref double target = ref MemoryMarshal.GetReference(buffer);
        ref uint word = ref MemoryMarshal.GetReference(words);
        ref double table = ref MemoryMarshal.GetArrayDataReference(NormalTable.Coefficients);
        int i = 0;
        if (WidePhiloxLanes.AreThere)
        {
            for (; i + Vector512<double>.Count <= buffer.Length; i += Vector512<double>.Count)
            {
                Vector512<double> normal = WideNormalLanes.FromWords(Vector256.LoadUnsafe(ref word, (nuint)i), ref table);
                Vector512<double> before = typeof(TWay) == typeof(Filling) ? Vector512<double>.Zero : Vector512.LoadUnsafe(ref target, (nuint)i);
                (before + (Vector512.Create(scale) * normal)).StoreUnsafe(ref target, (nuint)i);
            }
        }

        ref double rows = ref Unsafe.Add(ref table, NormalTable.RowsAgain * 4);
        var factor = Vector256.Create(scale);
        for (; i + Vector256<double>.Count <= buffer.Length; i += Vector256<double>.Count)
        {
            Vector256<double> normal = FromWords(Vector128.LoadUnsafe(ref word, (nuint)i), ref rows);
            Vector256<double> before = typeof(TWay) == typeof(Filling) ? Vector256<double>.Zero : Vector256.LoadUnsafe(ref target, (nuint)i);
            (before + (factor * normal)).StoreUnsafe(ref target, (nuint)i);
        }

        if (i < buffer.Length)
        {
            Vector256<double> last = factor * FromWords(Vector128.LoadUnsafe(ref word, (nuint)i), ref rows);
            double next = last.ToScalar();
            if (i + 2 <= buffer.Length)
            {
                Vector128<double> before = typeof(TWay) == typeof(Filling) ? Vector128<double>.Zero : Vector128.LoadUnsafe(ref target, (nuint)i);
                (before + last.GetLower()).StoreUnsafe(ref target, (nuint)i);
                next = last.GetElement(2);
                i += 2;
            }

            if (i < buffer.Length)
            {
                buffer[i] = (typeof(TWay) == typeof(Filling) ? 0 : buffer[i]) + next;
            }
        }
    }

    // InverseNormal.FromWord for each word. As a signed number the word w gives |2 w + 1| = x, with the sign that the draw has not:
    // w + 1/2 is x / 2 exactly.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> FromWords(Vector128<uint> words, ref double rows)
    {
        Vector256<long> bits = (Avx.ConvertToVector256Double(words.AsInt32()) + Vector256.Create(0.5)).AsInt64();
        Vector256<long> place = (bits >>> PlaceShift) & Vector256.Create(PlaceMask);
        Vector256<double> t = ((bits & Vector256.Create(FractionMask)) | Vector256.Create(OneBits)).AsDouble() - Vector256<double>.One;
        ref double row0 = ref Unsafe.AddByteOffset(ref rows, (nuint)place.GetElement(0));
        ref double row1 = ref Unsafe.AddByteOffset(ref rows, (nuint)place.GetElement(1));
        ref double row2 = ref Unsafe.AddByteOffset(ref rows, (nuint)place.GetElement(2));
        ref double row3 = ref Unsafe.AddByteOffset(ref rows, (nuint)place.GetElement(3));

        // Halves of two rows together: two further steps bring equal coefficients side by side.
        Vector256<double> lowEven = Vector256.Create(Vector128.LoadUnsafe(ref row0), Vector128.LoadUnsafe(ref row2));
        Vector256<double> lowOdd = Vector256.Create(Vector128.LoadUnsafe(ref row1), Vector128.LoadUnsafe(ref row3));
        Vector256<double> highEven = Vector256.Create(Vector128.LoadUnsafe(ref row0, 2), Vector128.LoadUnsafe(ref row2, 2));
        Vector256<double> highOdd = Vector256.Create(Vector128.LoadUnsafe(ref row1, 2), Vector128.LoadUnsafe(ref row3, 2));
        Vector256<double> c0 = Avx.UnpackLow(lowEven, lowOdd);
        Vector256<double> c1 = Avx.UnpackHigh(lowEven, lowOdd);
        Vector256<double> c2 = Avx.UnpackLow(highEven, highOdd);
        Vector256<double> c3 = Avx.UnpackHigh(highEven, highOdd);
        Vector256<double> cubic = c0 + (t * (c1 + (t * (c2 + (t * c3)))));
        return (Vector256.AndNot(Vector256.Create(long.MinValue), bits) ^ cubic.AsInt64()).AsDouble();
    }

    private readonly struct Adding;

    private readonly struct Filling;
}
