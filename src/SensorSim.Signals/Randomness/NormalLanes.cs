// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Signals.Randomness;

/// <summary>Sixteen normal draws at once in 256-bit lanes: the same operations in the same order as one by one, so the same bits.</summary>
internal static class NormalLanes
{
    /// <summary>Draws made at once.</summary>
    public const int Count = 16;

    /// <summary>Shift that leaves exponent and upper six significand bits of a double.</summary>
    public const int RowShift = 46;

    /// <summary>What the shift makes of 1.0, the first row of the table.</summary>
    public const long FirstRow = 1023 << 6;

    /// <summary>The significand bits below the upper six.</summary>
    public const long FractionMask = (1L << RowShift) - 1;

    /// <summary>Bits of 1.0.</summary>
    public const long OneBits = 1023L << 52;

    private const double TwoTo52 = 4503599627370496.0;

    /// <summary>Adds 16 scaled draws, those of four consecutive counters.</summary>
    /// <param name="target">First of 16 numbers.</param>
    /// <param name="counter">First counter, words 0 and 1.</param>
    /// <param name="source">Counter words 2 and 3.</param>
    /// <param name="seed">Key.</param>
    /// <param name="scale">Standard deviation.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Add(ref double target, ulong counter, ulong source, ulong seed, double scale)
    {
        PhiloxLanes.Draw(counter, source, seed, out Vector256<ulong> w0, out Vector256<ulong> w1, out Vector256<ulong> w2, out Vector256<ulong> w3);
        Vector256<double> n0 = FromWords(w0);
        Vector256<double> n1 = FromWords(w1);
        Vector256<double> n2 = FromWords(w2);
        Vector256<double> n3 = FromWords(w3);

        // Lane i of word j is draw 4i + j.
        Transpose(ref n0, ref n1, ref n2, ref n3);
        var factor = Vector256.Create(scale);
        (Vector256.LoadUnsafe(ref target) + (factor * n0)).StoreUnsafe(ref target);
        (Vector256.LoadUnsafe(ref target, 4) + (factor * n1)).StoreUnsafe(ref target, 4);
        (Vector256.LoadUnsafe(ref target, 8) + (factor * n2)).StoreUnsafe(ref target, 8);
        (Vector256.LoadUnsafe(ref target, 12) + (factor * n3)).StoreUnsafe(ref target, 12);
    }

    /// <summary><see cref="InverseNormal.FromWord"/> for the lower half of each lane; what the upper half holds does not matter.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> FromWords(Vector256<ulong> words)
    {
        // x = 2m + 1 written into the significand of 2^52 becomes a double by one subtraction.
        Vector256<ulong> topBits = Avx2.ShiftRightArithmetic(words.AsInt32(), 31).AsUInt64();
        Vector256<ulong> x = (((words ^ topBits) << 1) & Vector256.Create(0xFFFF_FFFEUL)) | Vector256.Create(0x4330_0000_0000_0001UL);
        Vector256<long> bits = (x.AsDouble() - Vector256.Create(TwoTo52)).AsInt64();
        Vector256<long> row = ((bits >>> RowShift) - Vector256.Create(FirstRow)) << 2;
        Vector256<double> t = ((bits & Vector256.Create(FractionMask)) | Vector256.Create(OneBits)).AsDouble() - Vector256<double>.One;

        ref double table = ref MemoryMarshal.GetArrayDataReference(NormalTable.Coefficients);
        Vector256<double> c0 = Vector256.LoadUnsafe(ref table, (nuint)row.GetElement(0));
        Vector256<double> c1 = Vector256.LoadUnsafe(ref table, (nuint)row.GetElement(1));
        Vector256<double> c2 = Vector256.LoadUnsafe(ref table, (nuint)row.GetElement(2));
        Vector256<double> c3 = Vector256.LoadUnsafe(ref table, (nuint)row.GetElement(3));
        Transpose(ref c0, ref c1, ref c2, ref c3);
        Vector256<double> cubic = c0 + (t * (c1 + (t * (c2 + (t * c3)))));
        return (cubic.AsUInt64() ^ (Vector256.AndNot(Vector256.Create(0x8000_0000UL), words) << 32)).AsDouble();
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
