// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>Four bins at once, each power made once: there is room for them here.</content>
public ref partial struct SpectrumPair
{
    private const int Four = 4;

    // Sine of half a circle and the place behind it: a window needs no other half.
    private static readonly short[] s_halfCircle = HalfCircle();

    private static short[] HalfCircle()
    {
        short[] circle = new short[Bins + 1];
        for (int place = 0; place < circle.Length; place++)
        {
            circle[place] = (short)SineTable.Sine(place);
        }

        return circle;
    }

    private void MakeInLanes(in HalfRing first, in HalfRing second, int length, int hannStep16)
    {
        WindowInLine(first, second, length, hannStep16);
        Fft256.Transform(ref First, ref Second);
        PowersInLanes(out int firstShift, out int secondShift);
        RelativeShift = secondShift + (2 * second.Exponent) - firstShift - (2 * first.Exponent);
    }

    private void WindowInLine(in HalfRing first, in HalfRing second, int length, int hannStep16)
    {
        ReadOnlySpan<short> circle = s_halfCircle;
        int angle = hannStep16 >> 1;
        for (int i = 0; i < length; i++)
        {
            int here = circle[angle >> 8];
            int sine = here + (((circle[(angle >> 8) + 1] - here) * (angle & 255)) >> 8);
            int hann = Shift.Round(sine * sine, 15);
            int at = Fft256.Reversed(i);
            First[at] = Shift.Round(first[i] * hann, 11);
            Second[at] = Shift.Round(second[i] * hann, 11);
            angle += hannStep16;
        }
    }

    // Bins 1 to 127. Sums of two bins fit into a word: at most 2^18 × 104 × 2.
    [SkipLocalsInit]
    private void PowersInLanes(out int firstShift, out int secondShift)
    {
        Span<long> powers = stackalloc long[2 * Bins];
        ref long firsts = ref MemoryMarshal.GetReference(powers);
        ref long seconds = ref Unsafe.Add(ref firsts, Bins);
        ref int first = ref First[0];
        ref int second = ref Second[0];
        Vector256<long> highestFirst = Vector256<long>.Zero;
        Vector256<long> highestSecond = Vector256<long>.Zero;
        for (int k = 1; k < Bins; k += Four)
        {
            // The last four are made from 124 on, for behind bin 127 there is none.
            nuint at = (nuint)(uint)Math.Min(k, Bins - Four);
            Vector128<int> re = Vector128.LoadUnsafe(ref first, at);
            Vector128<int> im = Vector128.LoadUnsafe(ref second, at);
            Vector128<int> mirroredRe = Mirrored(ref first, at);
            Vector128<int> mirroredIm = Mirrored(ref second, at);
            Vector256<long> power = Power(re + mirroredRe, im - mirroredIm);
            highestFirst = Vector256.Max(highestFirst, power);
            power.StoreUnsafe(ref firsts, at);
            power = Power(im + mirroredIm, mirroredRe - re);
            highestSecond = Vector256.Max(highestSecond, power);
            power.StoreUnsafe(ref seconds, at);
        }

        firstShift = Spare(Highest(highestFirst));
        secondShift = Spare(Highest(highestSecond));
        for (int k = 1; k < Bins; k += Four)
        {
            nuint at = (nuint)(uint)Math.Min(k, Bins - Four);
            Shifted(Vector256.LoadUnsafe(ref firsts, at), firstShift).StoreUnsafe(ref first, at);
            Shifted(Vector256.LoadUnsafe(ref seconds, at), secondShift).StoreUnsafe(ref second, at);
        }
    }

    // Bins 256 − k of four k.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Mirrored(ref int bins, nuint k) =>
        Sse2.Shuffle(Vector128.LoadUnsafe(ref bins, Fft256.Length - Four + 1 - k), 0b_00_01_10_11);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<long> Power(Vector128<int> real, Vector128<int> imaginary)
    {
        Vector256<int> a = Avx2.ConvertToVector256Int64(real).AsInt32();
        Vector256<int> b = Avx2.ConvertToVector256Int64(imaginary).AsInt32();
        return Avx2.Multiply(a, a) + Avx2.Multiply(b, b);
    }

    private static long Highest(Vector256<long> powers) =>
        Math.Max(Math.Max(powers.ToScalar(), powers.GetElement(1)), Math.Max(powers.GetElement(2), powers.GetElement(3)));

    // To 24 bits, whichever way.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Shifted(Vector256<long> powers, int down) => AcrossLanes.LowerHalves(down > 0 ? powers >>> down : powers << -down);
}
