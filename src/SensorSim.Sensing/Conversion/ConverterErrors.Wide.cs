// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Sensing.Conversion;

/// <content>With AVX-512 eight samples stand in one vector: the same operations, half as many instructions.</content>
internal sealed partial class ConverterErrors
{
    private static bool AreWideLanesThere => Vector512.IsHardwareAccelerated && Avx512F.IsSupported;

    private void ConvertWide(ReadOnlySpan<double> analog, Span<int> codes, Span<ushort> status, ReadOnlySpan<uint> draws, nuint last)
    {
        ref double from = ref MemoryMarshal.GetReference(analog);
        ref uint drawn = ref MemoryMarshal.GetReference(draws);
        ref int to = ref MemoryMarshal.GetReference(codes);
        var lowest = Vector512.Create(_lowest);
        var highest = Vector512.Create(_highest);
        var zeroCode = Vector256.Create(_zero);
        var codesPerUnit = Vector512.Create(_codesPerUnit);
        var middle = Vector512.Create(_middle);
        var perHalfRange = Vector512.Create(_perHalfRange);
        var mostBow = Vector512.Create(_bow);
        var offset = Vector512.Create(_offset);
        var perSum = Vector512.Create(_perSum);
        for (nuint i = 0; ; i = Math.Min(i + (nuint)Vector512<double>.Count, last))
        {
            Vector256<uint> words = Vector256.LoadUnsafe(ref drawn, i);
            Vector256<int> sums = ((words & Vector256.Create(0xFFFFu)) + (words >>> 16)).AsInt32() - Vector256.Create((int)NoSum);
            Vector512<double> x = Vector512.LoadUnsafe(ref from, i) * codesPerUnit;
            Vector512<double> u = (x - middle) * perHalfRange;
            Vector512<double> inside = Vector512<double>.One - (u * u);
            Vector512<double> bent = x + ((inside & Vector512.GreaterThan(inside, Vector512<double>.Zero)) * mostBow);
            Vector512<double> shifted = bent + (offset + (Avx512F.ConvertToVector512Double(sums) * perSum)) + Vector512.Create(RoundingShift);
            Vector512<double> isOutside = Vector512.LessThan(shifted, lowest) | Vector512.GreaterThan(shifted, highest);
            uint outside = unchecked((uint)isOutside.ExtractMostSignificantBits());
            if (outside != 0)
            {
                shifted = Vector512.ConditionalSelect(isOutside, Vector512.ConditionalSelect(Vector512.LessThan(shifted, lowest), lowest, highest), shifted);
                Flag(status, (int)i, outside);
            }

            (Avx512F.ConvertToVector256Int32(shifted.AsInt64()) + zeroCode).StoreUnsafe(ref to, i);
            if (i == last)
            {
                return;
            }
        }
    }
}
