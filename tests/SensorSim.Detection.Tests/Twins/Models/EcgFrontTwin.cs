// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The sample path of the beat detector in doubles, written as plain sums: no running sum, no ring.</summary>
internal static class EcgFrontTwin
{
    /// <summary>Working samples: sums of <see cref="BeatWindows.Decimation"/> codes.</summary>
    public static double[] Working(double[] codes, int decimation, in TwinWords words)
    {
        var working = new double[codes.Length / decimation];
        for (int i = 0; i < working.Length; i++)
        {
            double sum = 0;
            for (int k = 0; k < decimation; k++)
            {
                sum += codes[(i * decimation) + k];
            }

            working[i] = words.State(sum, decimation);
        }

        return working;
    }

    /// <summary>Two sums and the second difference; before the first sample its value had always come in.</summary>
    public static double[] BandPass(double[] working, in BeatWindows w, in TwinWords words)
    {
        double shift = Math.ScaleB(1, -w.SumShift);
        double gain = w.Decimation * w.FirstSum * shift;
        double[] first = Sum(working, w.FirstSum, shift, gain, words);
        double[] second = Sum(first, w.SecondSum, 1, gain * w.SecondSum, words);
        var passed = new double[second.Length];
        for (int i = 0; i < passed.Length; i++)
        {
            double difference = second[i] - (2 * Held(second, i - w.Arm)) + Held(second, i - (2 * w.Arm));
            passed[i] = words.State(difference, gain * w.SecondSum * 4);
        }

        return passed;
    }

    /// <summary>Magnitude, integrated.</summary>
    public static double[] Energy(double[] passed, in BeatWindows w, in TwinWords words)
    {
        // The magnitude clips at an eighth of what a band-pass of 24-bit codes can reach.
        double gain = w.Decimation * w.FirstSum * w.SecondSum * Math.ScaleB(4, -w.SumShift);
        var energy = new double[passed.Length];
        for (int i = 0; i < energy.Length; i++)
        {
            double sum = 0;
            for (int k = 0; k < w.Integration && k <= i; k++)
            {
                sum += Math.Abs(passed[i - k]);
            }

            energy[i] = words.State(sum, gain * w.Integration / 8);
        }

        return energy;
    }

    private static double[] Sum(double[] values, int length, double scale, double gain, in TwinWords words)
    {
        var sums = new double[values.Length];
        for (int i = 0; i < sums.Length; i++)
        {
            double sum = 0;
            for (int k = 0; k < length; k++)
            {
                sum += Held(values, i - k);
            }

            sums[i] = words.State(sum * scale, gain);
        }

        return sums;
    }

    private static double Held(double[] values, int at) => values[Math.Max(0, at)];
}
