// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Readings;

/// <content>Four values at once.</content>
public partial struct BreathSpectrum
{
    private const int Four = 4;
    private const int RowLength = (Turn / 4) + 2;

    // A row of cosines and one of sines for each rate up to 30, in the order of the values: 3.5 KB that firmware has no need of.
    private static readonly short[] s_rows = MakeRows();

    private static short[] MakeRows()
    {
        short[] rows = new short[((HalfTurnRate / 2) + 1) * 2 * RowLength];
        for (int rate = 0; rate <= HalfTurnRate / 2; rate++)
        {
            for (int n = 0; n <= Turn / 4; n++)
            {
                int phase = rate * n % Turn;
                rows[(2 * rate * RowLength) + n] = Circle[phase + (Turn / 4)];
                rows[(((2 * rate) + 1) * RowLength) + n] = Circle[phase];
            }
        }

        return rows;
    }

    // Every lane has values with even or with odd numbers only. Behind the last value stand zeros.
    private static Sums SumsInLanes(in Folded folded, int rate)
    {
        ref short cosines = ref s_rows[2 * rate * RowLength];
        ref short sines = ref Unsafe.Add(ref cosines, RowLength);
        ref int even = ref Unsafe.AsRef(in folded.Even[0]);
        ref int odd = ref Unsafe.AsRef(in folded.Odd[0]);
        Vector256<long> real = Vector256<long>.Zero;
        Vector256<long> imaginary = Vector256<long>.Zero;
        for (nuint n = 0; n <= (nuint)(uint)folded.Last; n += Four)
        {
            real += Product(ref even, ref cosines, n);
            imaginary += Product(ref odd, ref sines, n);
        }

        Vector128<long> reals = real.GetLower() + real.GetUpper();
        Vector128<long> imaginaries = imaginary.GetLower() + imaginary.GetUpper();
        return new Sums
        {
            EvenReal = reals.ToScalar(),
            OddReal = reals.GetElement(1),
            EvenImaginary = imaginaries.ToScalar(),
            OddImaginary = imaginaries.GetElement(1),
        };
    }

    // Lower halves of 64 bits times each other, with their signs.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<long> Product(ref int values, ref short factors, nuint n)
    {
        Vector256<int> value = Avx2.ConvertToVector256Int64(Vector128.LoadUnsafe(ref values, n)).AsInt32();
        ulong four = Unsafe.ReadUnaligned<ulong>(ref Unsafe.As<short, byte>(ref Unsafe.Add(ref factors, n)));
        Vector256<int> factor = Avx2.ConvertToVector256Int64(Vector128.CreateScalarUnsafe(four).AsInt16()).AsInt32();
        return Avx2.Multiply(value, factor);
    }
}
