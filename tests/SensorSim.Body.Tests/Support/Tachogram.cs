// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;
using MathNet.Numerics.Interpolation;

namespace SensorSim.Body.Tests.Support;

/// <summary>Power spectrum of RR intervals resampled at 4 Hz (the usual rate; Task Force 1996), Hann window, mean over segments of 1024 s.</summary>
internal sealed class Tachogram
{
    private const int Size = 4096;
    private const double RateHz = 4;
    private readonly double[] _density = new double[Size / 2];

    /// <summary>Takes beats: the RR interval [ms] that begins at each time [s].</summary>
    public Tachogram(double[] seconds, double[] rrMs)
    {
        var spline = CubicSpline.InterpolateNaturalSorted(seconds, rrMs);
        double mean = Moments.Mean(rrMs);
        double[] window = Window.HannPeriodic(Size);
        double power = window.Sum(w => w * w);
        int segments = (int)((seconds[^1] - seconds[0]) * RateHz / Size);
        for (int s = 0; s < segments; s++)
        {
            var x = new Complex[Size];
            for (int i = 0; i < Size; i++)
            {
                x[i] = window[i] * (spline.Interpolate(seconds[0] + (((s * (double)Size) + i) / RateHz)) - mean);
            }

            Fourier.Forward(x, FourierOptions.NoScaling);
            for (int k = 1; k < Size / 2; k++)
            {
                _density[k] += 2 * x[k].MagnitudeSquared() / (power * RateHz * segments);
            }
        }
    }

    /// <summary>Power between two frequencies [ms²].</summary>
    public double Power(double fromHz, double toHz) => Bins(fromHz, toHz).Sum(k => _density[k]) * RateHz / Size;

    /// <summary>Centre of the power between two frequencies [Hz].</summary>
    public double CentreHz(double fromHz, double toHz) =>
        Bins(fromHz, toHz).Sum(k => _density[k] * k * RateHz / Size) / Bins(fromHz, toHz).Sum(k => _density[k]);

    private static IEnumerable<int> Bins(double fromHz, double toHz) =>
        Enumerable.Range(1, (Size / 2) - 1).Where(k => k * RateHz / Size >= fromHz && k * RateHz / Size < toHz);
}
