// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>Power spectrum of a list of values by the fast Fourier transform (Cooley and Tukey 1965), padded with zeros to a power of two.</summary>
internal static class PowerSpectrum
{
    /// <summary>|X|² for bins 0 to half of the padded length.</summary>
    /// <param name="values">The values.</param>
    public static double[] Of(double[] values)
    {
        int size = 2;
        int bits = 1;
        while (size < values.Length)
        {
            size *= 2;
            bits++;
        }

        var re = new double[size];
        var im = new double[size];
        for (int i = 0; i < values.Length; i++)
        {
            re[Reversed(i, bits)] = values[i];
        }

        for (int half = 1; half < size; half *= 2)
        {
            for (int k = 0; k < half; k++)
            {
                PortableMath.SinCosTurns(0.5 * k / half, out double sin, out double cos);
                for (int i = k; i < size; i += 2 * half)
                {
                    int j = i + half;
                    double tr = (re[j] * cos) + (im[j] * sin);
                    double ti = (im[j] * cos) - (re[j] * sin);
                    re[j] = re[i] - tr;
                    im[j] = im[i] - ti;
                    re[i] += tr;
                    im[i] += ti;
                }
            }
        }

        var power = new double[(size / 2) + 1];
        for (int k = 0; k < power.Length; k++)
        {
            power[k] = (re[k] * re[k]) + (im[k] * im[k]);
        }

        return power;
    }

    private static int Reversed(int index, int bits)
    {
        int result = 0;
        for (int b = 0; b < bits; b++)
        {
            result = (result << 1) | ((index >> b) & 1);
        }

        return result;
    }
}
