// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Four neighbours of a stage at once, of the first two stages all of eight numbers.</content>
public static partial class Fft256
{
    private const int Four = 4;

    // Cosines and sines of the stage that joins halves of n stand from n on: a kilobyte that firmware has no need of.
    private static readonly short[] s_cosines = Turns(SineTable.Cosine);
    private static readonly short[] s_sines = Turns(SineTable.Sine);

    private static short[] Turns(Func<int, int> wave)
    {
        short[] turns = new short[Length];
        for (int half = Four, turn = Length / (2 * Four); half < Length; half <<= 1, turn >>= 1)
        {
            for (int j = 0; j < half; j++)
            {
                turns[half + j] = (short)wave(j * turn);
            }
        }

        return turns;
    }

    // Both spans have 256 numbers.
    private static void TransformInLanes(Span<int> x, Span<int> y)
    {
        FirstStagesInLanes(x, y);
        for (int half = Four; half < Length; half <<= 1)
        {
            StageInLanes(x, y, half);
        }
    }

    // Pairs, where nothing turns, and fours, where the second pair turns by nothing and by a quarter: two fours at once.
    private static void FirstStagesInLanes(Span<int> x, Span<int> y)
    {
        Vector256<int> cosine = Vector256.Create(SineTable.Cosine(0), (long)SineTable.Cosine(64), SineTable.Cosine(0), SineTable.Cosine(64)).AsInt32();
        Vector256<int> sine = Vector256.Create(SineTable.Sine(0), (long)SineTable.Sine(64), SineTable.Sine(0), SineTable.Sine(64)).AsInt32();
        for (int a = 0; a < Length; a += 2 * Four)
        {
            ref int re = ref x[a];
            ref int im = ref y[a];
            Vector256<int> reals = Pairs(Vector256.LoadUnsafe(ref re));
            Vector256<int> imaginaries = Pairs(Vector256.LoadUnsafe(ref im));
            Vector128<long> evenRe = reals.GetLower().AsInt64();
            Vector128<long> oddRe = reals.GetUpper().AsInt64();
            Vector128<long> evenIm = imaginaries.GetLower().AsInt64();
            Vector128<long> oddIm = imaginaries.GetUpper().AsInt64();
            Vector128<int> hereRe = Sse2.UnpackLow(evenRe, oddRe).AsInt32();
            Vector128<int> hereIm = Sse2.UnpackLow(evenIm, oddIm).AsInt32();
            Vector256<int> right = Avx2.ConvertToVector256Int64(Sse2.UnpackHigh(evenRe, oddRe).AsInt32()).AsInt32();
            Vector256<int> up = Avx2.ConvertToVector256Int64(Sse2.UnpackHigh(evenIm, oddIm).AsInt32()).AsInt32();
            Vector128<int> real = Rounded(Avx2.Multiply(right, cosine) + Avx2.Multiply(up, sine));
            Vector128<int> imaginary = Rounded(Avx2.Multiply(up, cosine) - Avx2.Multiply(right, sine));
            Store(hereRe + real, hereRe - real, ref re);
            Store(hereIm + imaginary, hereIm - imaginary, ref im);
        }
    }

    // Sums in the even lanes, differences in the odd ones.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Pairs(Vector256<int> values)
    {
        Vector256<int> odd = Vector256.Create(0xFFFF_FFFFUL << 32).AsInt32();
        return Avx2.Shuffle(values, 0b_10_11_00_01) + ((values ^ odd) - odd);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector128<int> sums, Vector128<int> differences, ref int target)
    {
        Sse2.UnpackLow(sums.AsInt64(), differences.AsInt64()).AsInt32().StoreUnsafe(ref target);
        Sse2.UnpackHigh(sums.AsInt64(), differences.AsInt64()).AsInt32().StoreUnsafe(ref target, Four);
    }

    // Halves of four and more.
    private static void StageInLanes(Span<int> x, Span<int> y, int half)
    {
        ref int re = ref MemoryMarshal.GetReference(x);
        ref int im = ref MemoryMarshal.GetReference(y);
        for (nuint j = 0; j < (nuint)(uint)half; j += Four)
        {
            Vector256<int> cosine = Four64(ref s_cosines[half + (int)j]);
            Vector256<int> sine = Four64(ref s_sines[half + (int)j]);
            for (nuint a = j; a < Length; a += (nuint)(uint)(2 * half))
            {
                nuint b = a + (nuint)(uint)half;
                Vector256<int> right = Avx2.ConvertToVector256Int64(Vector128.LoadUnsafe(ref re, b)).AsInt32();
                Vector256<int> up = Avx2.ConvertToVector256Int64(Vector128.LoadUnsafe(ref im, b)).AsInt32();
                Vector128<int> real = Rounded(Avx2.Multiply(right, cosine) + Avx2.Multiply(up, sine));
                Vector128<int> imaginary = Rounded(Avx2.Multiply(up, cosine) - Avx2.Multiply(right, sine));
                Vector128<int> hereRe = Vector128.LoadUnsafe(ref re, a);
                Vector128<int> hereIm = Vector128.LoadUnsafe(ref im, a);
                (hereRe - real).StoreUnsafe(ref re, b);
                (hereIm - imaginary).StoreUnsafe(ref im, b);
                (hereRe + real).StoreUnsafe(ref re, a);
                (hereIm + imaginary).StoreUnsafe(ref im, a);
            }
        }
    }

    // Of a result that fits into a word the lower half is the same whatever the shift brings in from above.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Rounded(Vector256<long> products) => AcrossLanes.LowerHalves((products + Vector256.Create((long)Half)) >>> 15);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Four64(ref short first) =>
        Avx2.ConvertToVector256Int64(Vector128.CreateScalarUnsafe(Unsafe.ReadUnaligned<ulong>(ref Unsafe.As<short, byte>(ref first))).AsInt16()).AsInt32();
}
