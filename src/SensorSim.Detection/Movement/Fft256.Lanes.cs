// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Four neighbours of a stage at once.</content>
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

    // Halves of four and more. Both spans have 256 numbers.
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
