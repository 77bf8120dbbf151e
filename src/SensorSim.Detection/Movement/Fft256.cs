// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>Fourier transform of 256 complex numbers in place, radix 2, decimation in time.</summary>
/// <remarks>
/// Input: 22 bits, real and imaginary part, in the order of reversed bits (see <see cref="Reversed"/>).
/// Product: 31 bits × Q1.15, 46 bits, in 64 bits.
/// Accumulator: 32 bits; eight stages grow a word by at most 8 bits and a half.
/// Worst case: 256 × √2 times the largest input: 2^30.5.
/// Output: same weight of a bit, not divided; products rounded to nearest.
/// </remarks>
public static partial class Fft256
{
    /// <summary>Points.</summary>
    public const int Length = 256;

    private const int Half = 1 << 14;

    private static ReadOnlySpan<byte> Nibble => [0, 8, 4, 12, 2, 10, 6, 14, 1, 9, 5, 13, 3, 11, 7, 15];

    /// <summary>Where the number of a place has to be put.</summary>
    /// <param name="place">0 to 255.</param>
    public static int Reversed(int place)
    {
        return (Nibble[place & 15] << 4) | Nibble[(place >> 4) & 15];
    }

    /// <summary>Transforms with e^(−2πi nk / 256).</summary>
    /// <param name="re">Real parts.</param>
    /// <param name="im">Imaginary parts.</param>
    public static void Transform(ref Word256 re, ref Word256 im)
    {
        Span<int> x = re;
        Span<int> y = im;
        x = x[..Length];
        y = y[..Length];

        if (Avx2.IsSupported)
        {
            TransformInLanes(x, y);
            return;
        }

        // Pairs: nothing turns.
        for (int a = 0; a < Length; a += 2)
        {
            int real = x[a + 1];
            int imaginary = y[a + 1];
            x[a + 1] = x[a] - real;
            y[a + 1] = y[a] - imaginary;
            x[a] += real;
            y[a] += imaginary;
        }

        for (int half = 2, turn = 64; half < Length; half <<= 1, turn >>= 1)
        {
            for (int j = 0; j < half; j++)
            {
                int cosine = SineTable.Cosine(j * turn);
                int sine = SineTable.Sine(j * turn);
                for (int a = j; a < Length; a += 2 * half)
                {
                    int b = a + half;
                    long right = x[b];
                    long up = y[b];
                    int real = (int)(((right * cosine) + (up * sine) + Half) >> 15);
                    int imaginary = (int)(((up * cosine) - (right * sine) + Half) >> 15);
                    x[b] = x[a] - real;
                    y[b] = y[a] - imaginary;
                    x[a] += real;
                    y[a] += imaginary;
                }
            }
        }
    }
}
