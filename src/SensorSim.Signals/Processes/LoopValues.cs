// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Processes;

/// <summary>From the values of a recording to those of an endless loop: joined, without what a slower channel would fold, of mean 0 and rms 1.</summary>
/// <remarks>See <see cref="RecordingLoop"/>.</remarks>
internal static class LoopValues
{
    private const double SeamSeconds = 1;
    private const double CornerShare = 0.45;
    private const int Lobes = 8;

    // Correlation of the kernel with itself at 0 to 3 values.
    private static readonly double[] s_kernel = [KernelCorrelation(0), KernelCorrelation(1), KernelCorrelation(2), KernelCorrelation(3)];

    /// <summary>The values of a loop.</summary>
    /// <param name="recording">The recording.</param>
    /// <param name="channelRateHz">Rate of the channel [Hz].</param>
    public static double[] Of(NoiseRecording recording, double channelRateHz)
    {
        double[] loop = Joined(recording.Values, recording.RateHz);
        if (channelRateHz < recording.RateHz)
        {
            loop = LowPass(loop, CornerShare * channelRateHz / recording.RateHz);
        }

        Normalise(loop);
        return loop;
    }

    private static double[] Joined(double[] values, double rateHz)
    {
        double mean = 0;
        foreach (double v in values)
        {
            mean += v / values.Length;
        }

        int seam = (int)Math.Min(values.Length / 4, Math.Ceiling(SeamSeconds * rateHz));
        var loop = new double[values.Length - seam];
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] = values[i] - mean;
            if (i < seam)
            {
                PortableMath.SinCosTurns(0.25 * (i + 0.5) / seam, out double rising, out double falling);
                loop[i] = (rising * loop[i]) + (falling * (values[loop.Length + i] - mean));
            }
        }

        return loop;
    }

    // Circular, so that the seam stays none.
    private static double[] LowPass(double[] loop, double corner)
    {
        int reach = (int)Math.Min((loop.Length - 1) / 2, Math.Ceiling(Lobes / (2 * corner)));
        var taps = new double[reach + 1];
        double sum = 0;
        for (int k = 0; k <= reach; k++)
        {
            PortableMath.SinCosTurns(corner * k, out double sin, out _);
            PortableMath.SinCosTurns(0.5 * k / (reach + 1), out _, out double cos);
            taps[k] = (k == 0 ? 2 * corner : sin / (Math.PI * k)) * 0.5 * (1 + cos);
            sum += k == 0 ? taps[k] : 2 * taps[k];
        }

        var result = new double[loop.Length];
        for (int i = 0; i < loop.Length; i++)
        {
            double y = taps[0] * loop[i];
            for (int k = 1; k <= reach; k++)
            {
                int before = i - k < 0 ? i - k + loop.Length : i - k;
                int after = i + k >= loop.Length ? i + k - loop.Length : i + k;
                y += taps[k] * (loop[before] + loop[after]);
            }

            result[i] = y / sum;
        }

        return result;
    }

    private static void Normalise(double[] loop)
    {
        double mean = 0;
        foreach (double v in loop)
        {
            mean += v / loop.Length;
        }

        double largest = 0;
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] -= mean;
            largest = Math.Max(largest, Math.Abs(loop[i]));
        }

        // So that squares of tiny or huge values neither vanish nor overflow.
        for (int i = 0; i < loop.Length && largest > 0; i++)
        {
            loop[i] /= largest;
        }

        double power = 0;
        for (int k = 0; k < s_kernel.Length; k++)
        {
            double correlation = 0;
            for (int i = 0; i < loop.Length; i++)
            {
                int other = i + k >= loop.Length ? i + k - loop.Length : i + k;
                correlation += loop[i] * loop[other];
            }

            power += (k == 0 ? 1 : 2) * s_kernel[k] * correlation / loop.Length;
        }

        double scale = power > 0 ? 1 / Math.Sqrt(power) : 0;
        for (int i = 0; i < loop.Length; i++)
        {
            loop[i] *= scale;
        }
    }

    // ∫ over a stretch between two values of the sum of products of the four neighbours' cubics that lie so far apart.
    private static double KernelCorrelation(int distance)
    {
        double[][] cubics = [[0, -0.5, 1, -0.5], [1, 0, -2.5, 1.5], [0, 0.5, 2, -1.5], [0, 0, -0.5, 0.5]];
        double sum = 0;
        for (int j = 0; j + distance < 4; j++)
        {
            for (int m = 0; m < 4; m++)
            {
                for (int n = 0; n < 4; n++)
                {
                    sum += cubics[j][m] * cubics[j + distance][n] / (m + n + 1);
                }
            }
        }

        return sum;
    }
}
