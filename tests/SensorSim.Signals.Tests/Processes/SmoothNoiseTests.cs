// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>The spline noise against the cubic B-spline's closed forms (Unser, IEEE Signal Processing Magazine 16(6):22, 1999).</summary>
public sealed class SmoothNoiseTests
{
    private const string Name = "test.smooth_noise";

    [TestCase(0.5, 250)]
    [TestCase(0.1, 50)]
    [TestCase(2.5, 10)]
    public void Add_AnyGrid_IsTheSumOfBSplines(double nodeSeconds, double rateHz)
    {
        var random = new KeyedRandom(3, Name);
        var grid = new SampleGrid(-4.2, 1 / rateHz);
        double[] noise = Read(new SmoothNoise(random, nodeSeconds, 1), grid, 2000, 250);
        for (int i = 0; i < noise.Length; i++)
        {
            double x = (grid.StartSeconds + (i * grid.StepSeconds)) / nodeSeconds;
            double sum = 0;
            for (long node = (long)Math.Floor(x) - 2; node <= (long)Math.Floor(x) + 3; node++)
            {
                sum += random.Normal(node) * CubicBSpline(x - node);
            }

            Assert.That(noise[i], Is.EqualTo(sum * Math.Sqrt(315.0 / 151)).Within(1e-10), $"sample {i}");
        }
    }

    // Pairs of node time and rate at which some sample lies on a node by rounding though the division says just before it.
    [TestCase(0.1, 50, 216)]
    [TestCase(0.1, 300, 2431)]
    [TestCase(0.2, 125, 2200)]
    [TestCase(1.1, 100, 1651)]
    public void Add_SampleOnANode_GoesOn(double nodeSeconds, int rateHz, int count)
    {
        var work = Task.Run(() => Read(new SmoothNoise(new KeyedRandom(3, Name), nodeSeconds, 1), new SampleGrid(0, 1.0 / rateHz), count, count));
        Assert.That(work.Wait(15_000), "it hangs");
        Assert.That(work.Result.All(double.IsFinite));
    }

    [TestCase(1)]
    [TestCase(7)]
    [TestCase(64)]
    [TestCase(1000)]
    public void Add_AnyCut_GivesTheSameBits(int cut)
    {
        var noise = new SmoothNoise(new KeyedRandom(3, Name), 0.5, 0.2);
        var grid = new SampleGrid(0.001, 1.0 / 250);
        Assert.That(Read(noise, grid, 5000, cut), Is.EqualTo(Read(noise, grid, 5000, 5000)));
    }

    [Test]
    public void Add_LongRun_HasTheRmsAskedForAndTheSpectrumOfTheSpline()
    {
        const double Node = 0.5;
        const int Size = 1024;
        const int Segments = 2000;
        const double RateHz = 8;
        double[] noise = Read(new SmoothNoise(new KeyedRandom(4, Name), Node, 0.3), new SampleGrid(0, 1 / RateHz), Size * Segments, Size);

        // 512,000 nodes; the relative standard error of a variance from n correlated normals is √(2·Σρ²/n), Σρ² below 4 here.
        double variance = noise.Sum(v => v * v) / noise.Length;
        Assert.That(variance, Is.EqualTo(0.09).Within(4 * 0.09 * Math.Sqrt(8.0 / (Size * Segments / RateHz / Node))));

        double[] density = new double[Size / 2];
        var x = new Complex[Size];
        for (int s = 0; s < Segments; s++)
        {
            for (int i = 0; i < Size; i++)
            {
                x[i] = noise[(s * Size) + i] * (0.5 - (0.5 * Math.Cos(2 * Math.PI * i / Size)));
            }

            Fourier.Forward(x, FourierOptions.NoScaling);
            for (int k = 0; k < density.Length; k++)
            {
                density[k] += x[k].MagnitudeSquared();
            }
        }

        // sinc(π f Δ)^8: half the power at 0.23/Δ, nothing at 1/Δ. Standard error of a bin: 1/√2000 = 2.2 %.
        double low = density[2..12].Average();
        double Share(double hz) => density[(int)Math.Round(hz * Size / RateHz)] / low;
        Assert.That(Share(0.23 / Node), Is.EqualTo(0.5).Within(0.05));
        Assert.That(Share(0.4 / Node), Is.EqualTo(Math.Pow(Math.Sin(0.4 * Math.PI) / (0.4 * Math.PI), 8)).Within(12).Percent);
        Assert.That(Share(1 / Node), Is.LessThan(1e-6));
    }

    [Test]
    public void Add_RmsZero_AddsNothing() =>
        Assert.That(Read(new SmoothNoise(new KeyedRandom(3, Name), 0.5, 0), new SampleGrid(0, 0.01), 100, 10), Is.All.Zero);

    // The uniform cubic B-spline, by its own piecewise definition.
    private static double CubicBSpline(double x)
    {
        double a = Math.Abs(x);
        return a < 1 ? (2.0 / 3) - (a * a) + (a * a * a / 2) : a < 2 ? Math.Pow(2 - a, 3) / 6 : 0;
    }

    private static double[] Read(SmoothNoise noise, SampleGrid grid, int count, int cut)
    {
        double[] all = new double[count];
        for (int done = 0; done < count; done += cut)
        {
            noise.Add(all.AsSpan(done, Math.Min(cut, count - done)), grid, done);
        }

        return all;
    }
}
