// SPDX-License-Identifier: MIT
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
public static class Fft256
{
    /// <summary>Points.</summary>
    public const int Length = 256;

    /// <summary>Where the number of a place has to be put.</summary>
    /// <param name="place">0 to 255.</param>
    public static int Reversed(int place)
    {
        int reversed = 0;
        for (int bit = 0; bit < 8; bit++)
        {
            reversed |= ((place >> bit) & 1) << (7 - bit);
        }

        return reversed;
    }

    /// <summary>Transforms with e^(−2πi nk / 256).</summary>
    /// <param name="re">Real parts.</param>
    /// <param name="im">Imaginary parts.</param>
    public static void Transform(ref Word256 re, ref Word256 im)
    {
        for (int half = 1, turn = 128; half < Length; half <<= 1, turn >>= 1)
        {
            for (int j = 0; j < half; j++)
            {
                int cosine = SineTable.Cosine(j * turn);
                int sine = SineTable.Sine(j * turn);
                for (int a = j; a < Length; a += 2 * half)
                {
                    int b = a + half;
                    int real = (int)Wide.Round(((long)re[b] * cosine) + ((long)im[b] * sine), 15);
                    int imaginary = (int)Wide.Round(((long)im[b] * cosine) - ((long)re[b] * sine), 15);
                    re[b] = re[a] - real;
                    im[b] = im[a] - imaginary;
                    re[a] += real;
                    im[a] += imaginary;
                }
            }
        }
    }
}
