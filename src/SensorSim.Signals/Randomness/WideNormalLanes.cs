// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>Normal draws in 512-bit lanes: the same operations in the same order as one by one, so the same bits; needs AVX-512.</summary>
internal static class WideNormalLanes
{
    /// <summary><see cref="InverseNormal.FromWord"/> for each word.</summary>
    /// <param name="words">The words.</param>
    /// <param name="table">First coefficient of the table of cubics.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> FromWords(Vector256<uint> words, ref double table)
    {
        Vector256<uint> x = ((words ^ (words.AsInt32() >> 31).AsUInt32()) << 1) | Vector256<uint>.One;
        Vector512<long> bits = Avx512F.ConvertToVector512Double(x).AsInt64();
        Vector512<long> row = ((bits >>> NormalLanes.RowShift) - Vector512.Create(NormalLanes.FirstRow)) << 2;
        Vector512<double> t = ((bits & Vector512.Create(NormalLanes.FractionMask)) | Vector512.Create(NormalLanes.OneBits)).AsDouble()
            - Vector512<double>.One;

        // Rows in such an order that the coefficients come out in the order of the words.
        Vector256<long> low = row.GetLower();
        Vector256<long> high = row.GetUpper();
        Vector512<double> a = Rows(low.GetLower().GetElement(0), low.GetUpper().GetElement(0), ref table);
        Vector512<double> b = Rows(low.GetLower().GetElement(1), low.GetUpper().GetElement(1), ref table);
        Vector512<double> c = Rows(high.GetLower().GetElement(0), high.GetUpper().GetElement(0), ref table);
        Vector512<double> d = Rows(high.GetLower().GetElement(1), high.GetUpper().GetElement(1), ref table);
        Vector512<double> abEven = Avx512F.UnpackLow(a, b);
        Vector512<double> abOdd = Avx512F.UnpackHigh(a, b);
        Vector512<double> cdEven = Avx512F.UnpackLow(c, d);
        Vector512<double> cdOdd = Avx512F.UnpackHigh(c, d);
        Vector512<double> c0 = Avx512F.Shuffle4x128(abEven, cdEven, 0b10_00_10_00);
        Vector512<double> c1 = Avx512F.Shuffle4x128(abOdd, cdOdd, 0b10_00_10_00);
        Vector512<double> c2 = Avx512F.Shuffle4x128(abEven, cdEven, 0b11_01_11_01);
        Vector512<double> c3 = Avx512F.Shuffle4x128(abOdd, cdOdd, 0b11_01_11_01);
        Vector512<double> cubic = c0 + (t * (c1 + (t * (c2 + (t * c3)))));
        Vector512<long> signs = Avx512F.ConvertToVector512Int64(words) << 32;
        return (Vector512.AndNot(Vector512.Create(long.MinValue), signs) ^ cubic.AsInt64()).AsDouble();
    }

    // What the lower half is widened by is written over at once: creating the whole from halves would wait for the last time's.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Rows(long low, long high, ref double table) =>
        Vector256.LoadUnsafe(ref table, (nuint)low).ToVector512Unsafe().WithUpper(Vector256.LoadUnsafe(ref table, (nuint)high));
}
