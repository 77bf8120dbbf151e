// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>Normal draws in 256-bit lanes: the same operations in the same order as one by one, so the same bits; needs AVX2.</summary>
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

    private const double TwoTo52 = 4503599627370496.0;

    /// <summary>Adds scaled draws.</summary>
    /// <param name="buffer">Receives value + scale × draw.</param>
    /// <param name="words">Their words, and behind them up to three words more, which only have to be there.</param>
    /// <param name="scale">Standard deviation.</param>
    public static void Add(Span<double> buffer, ReadOnlySpan<uint> words, double scale)
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
                (Vector512.LoadUnsafe(ref target, (nuint)i) + (Vector512.Create(scale) * normal)).StoreUnsafe(ref target, (nuint)i);
            }
        }

        var factor = Vector256.Create(scale);
        for (; i + Vector256<double>.Count <= buffer.Length; i += Vector256<double>.Count)
        {
            Vector256<double> normal = FromWords(Vector128.LoadUnsafe(ref word, (nuint)i), ref table);
            (Vector256.LoadUnsafe(ref target, (nuint)i) + (factor * normal)).StoreUnsafe(ref target, (nuint)i);
        }

        if (i < buffer.Length)
        {
            Vector256<double> last = factor * FromWords(Vector128.LoadUnsafe(ref word, (nuint)i), ref table);
            double next = last.ToScalar();
            if (i + 2 <= buffer.Length)
            {
                (Vector128.LoadUnsafe(ref target, (nuint)i) + last.GetLower()).StoreUnsafe(ref target, (nuint)i);
                next = last.GetElement(2);
                i += 2;
            }

            if (i < buffer.Length)
            {
                buffer[i] += next;
            }
        }
    }

    // InverseNormal.FromWord for each word.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> FromWords(Vector128<uint> words, ref double table)
    {
        // x = 2m + 1 written into the significand of 2^52 becomes a double by one subtraction.
        Vector256<long> m = Avx2.ConvertToVector256Int64(words ^ (words.AsInt32() >> 31).AsUInt32());
        Vector256<long> bits = (((m << 1) | Vector256.Create(0x4330_0000_0000_0001L)).AsDouble() - Vector256.Create(TwoTo52)).AsInt64();
        Vector256<long> row = ((bits >>> RowShift) - Vector256.Create(FirstRow)) << 2;
        Vector256<double> t = ((bits & Vector256.Create(FractionMask)) | Vector256.Create(OneBits)).AsDouble() - Vector256<double>.One;
        Vector128<long> low = row.GetLower();
        Vector128<long> high = row.GetUpper();
        Vector256<double> c0 = Vector256.LoadUnsafe(ref table, (nuint)low.GetElement(0));
        Vector256<double> c1 = Vector256.LoadUnsafe(ref table, (nuint)low.GetElement(1));
        Vector256<double> c2 = Vector256.LoadUnsafe(ref table, (nuint)high.GetElement(0));
        Vector256<double> c3 = Vector256.LoadUnsafe(ref table, (nuint)high.GetElement(1));
        Transpose(ref c0, ref c1, ref c2, ref c3);
        Vector256<double> cubic = c0 + (t * (c1 + (t * (c2 + (t * c3)))));
        Vector256<long> signs = Avx2.ConvertToVector256Int64(words) << 32;
        return (Vector256.AndNot(Vector256.Create(long.MinValue), signs) ^ cubic.AsInt64()).AsDouble();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Transpose(ref Vector256<double> a, ref Vector256<double> b, ref Vector256<double> c, ref Vector256<double> d)
    {
        Vector256<double> abLow = Avx.UnpackLow(a, b);
        Vector256<double> abHigh = Avx.UnpackHigh(a, b);
        Vector256<double> cdLow = Avx.UnpackLow(c, d);
        Vector256<double> cdHigh = Avx.UnpackHigh(c, d);
        a = Avx.Permute2x128(abLow, cdLow, 0x20);
        b = Avx.Permute2x128(abHigh, cdHigh, 0x20);
        c = Avx.Permute2x128(abLow, cdLow, 0x31);
        d = Avx.Permute2x128(abHigh, cdHigh, 0x31);
    }
}
