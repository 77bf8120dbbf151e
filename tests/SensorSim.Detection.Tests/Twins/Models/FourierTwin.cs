// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Fourier transform of 256 numbers: that of the numerics package, or a radix-2 one whose sines and sums are rounded.</summary>
internal static class FourierTwin
{
    public const int Length = 256;

    /// <summary>Not divided, e^(−2πi nk/256).</summary>
    public static Complex[] Exact(Complex[] samples)
    {
        Complex[] bins = [.. samples];
        Fourier.Forward(bins, FourierOptions.NoScaling);
        return bins;
    }

    /// <summary>The same by eight stages of butterflies.</summary>
    /// <param name="samples">Samples.</param>
    /// <param name="sineBits">Bits of sines and cosines, the sign counted; 0: doubles.</param>
    /// <param name="step">Every sum and product is a multiple of this; 0: doubles.</param>
    public static Complex[] Rounded(Complex[] samples, int sineBits, double step)
    {
        Complex[] x = [.. Enumerable.Range(0, Length).Select(i => samples[Reversed(i)])];
        for (int half = 1; half < Length; half *= 2)
        {
            for (int j = 0; j < half; j++)
            {
                Complex turn = Complex.FromPolarCoordinates(1, -Math.PI * j / half);
                turn = new Complex(Sine(turn.Real, sineBits), Sine(turn.Imaginary, sineBits));
                for (int a = j; a < Length; a += 2 * half)
                {
                    Complex turned = Round(x[a + half] * turn, step);
                    (x[a], x[a + half]) = (x[a] + turned, x[a] - turned);
                }
            }
        }

        return x;
    }

    /// <summary>A sine or a window's value as a word keeps it whose largest stands for nearly 1.</summary>
    public static double Sine(double value, int bits)
    {
        if (bits == 0)
        {
            return value;
        }

        double one = Math.ScaleB(1, bits - 1);
        return Math.Round(value * (one - 1)) / one;
    }

    private static Complex Round(Complex value, double step) =>
        step == 0 ? value : new Complex(Math.Round(value.Real / step) * step, Math.Round(value.Imaginary / step) * step);

    private static int Reversed(int place)
    {
        int reversed = 0;
        for (int bit = 1; bit < Length; bit *= 2)
        {
            reversed = (reversed * 2) + ((place & bit) == 0 ? 0 : 1);
        }

        return reversed;
    }
}
