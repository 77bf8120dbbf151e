// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>Plain measurements on sampled signals, independent of how they were made.</summary>
internal static class Measure
{
    public static double Rms(double[] x) => Math.Sqrt(x.Average(v => v * v));

    public static double[] Less(double[] a, double[] b) => [.. a.Zip(b, (x, y) => x - y)];

    public static double[] WithoutMean(double[] x)
    {
        double mean = x.Average();
        return [.. x.Select(v => v - mean)];
    }

    /// <summary>Correlation of a signal with itself some samples later.</summary>
    public static double Autocorrelation(double[] x, int lag)
    {
        double[] d = WithoutMean(x);
        double sum = 0;
        for (int i = lag; i < d.Length; i++)
        {
            sum += d[i] * d[i - lag];
        }

        return sum / d.Sum(v => v * v);
    }

    /// <summary>
    /// Complex amplitude of a sine line a·sin(2πft + φ), as a·e^(jφ), by the Fourier integral under a Hann window (Harris, Proc IEEE 66:51, 1978).
    /// </summary>
    public static Complex Line(double[] x, double hz, double rateHz)
    {
        Complex sum = 0;
        double weight = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double w = 0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / x.Length));
            sum += w * x[i] * Complex.FromPolarCoordinates(1, -2 * Math.PI * hz * i / rateHz);
            weight += w;
        }

        return 2 * sum / weight * Complex.ImaginaryOne;
    }

    /// <summary>Power spectrum |X|² for bins 0 to half, mean removed, under a Hann window.</summary>
    public static double[] Spectrum(double[] x)
    {
        double mean = x.Average();
        var data = new Complex[x.Length];
        for (int i = 0; i < data.Length; i++)
        {
            data[i] = (x[i] - mean) * (0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / x.Length)));
        }

        Fourier.Forward(data, FourierOptions.NoScaling);
        return [.. data.Take((data.Length / 2) + 1).Select(c => (c.Real * c.Real) + (c.Imaginary * c.Imaginary))];
    }

    /// <summary>Frequency of the largest bin of the spectrum [Hz].</summary>
    public static double PeakHz(double[] x, double rateHz)
    {
        double[] power = Spectrum(x);
        return Array.IndexOf(power, power.Max()) * rateHz / x.Length;
    }

    /// <summary>Where a polynomial fitted to samples about a time has its extremum [s].</summary>
    /// <param name="x">Samples.</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    /// <param name="seconds">About where [s], in sample time.</param>
    /// <param name="reachSeconds">Fitted to either side [s].</param>
    public static double ExtremumSeconds(double[] x, double rateHz, double seconds, double reachSeconds)
    {
        int first = (int)Math.Ceiling((seconds - reachSeconds) * rateHz);
        int count = (int)Math.Floor((seconds + reachSeconds) * rateHz) - first + 1;
        double[] u = [.. Enumerable.Range(first, count).Select(i => ((i / rateHz) - seconds) / reachSeconds)];
        double[] c = MathNet.Numerics.Fit.Polynomial(u, x[first..(first + count)], 6);
        double at = 0;
        for (int step = 0; step < 50; step++)
        {
            double slope = 0;
            double curvature = 0;
            for (int k = c.Length - 1; k > 0; k--)
            {
                slope = (slope * at) + (k * c[k]);
            }

            for (int k = c.Length - 1; k > 1; k--)
            {
                curvature = (curvature * at) + (k * (k - 1) * c[k]);
            }

            at -= slope / curvature;
        }

        return seconds + (at * reachSeconds);
    }
}
