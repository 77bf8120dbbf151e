// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>Wandering phase, Gaussian band and rotation against their definitions, by System.Math.</summary>
public sealed class OscillationTests
{
    private const string Name = "test.oscillation";

    [Test]
    public void WanderingPhase_NoSpread_GrowsByTheFrequency()
    {
        var phase = new WanderingPhase(new KeyedRandom(1, Name), 0.25, 0, 0.001, 0.01);
        for (double t = -100; t < 1e5; t += 777.7)
        {
            Assert.That(phase.Turns(t) - phase.Turns(0), Is.EqualTo(0.25 * t).Within(1e-9));
        }

        Assert.That(phase.FrequencyHz, Is.EqualTo(0.25));
    }

    [TestCase(0.25, 0.01, 0.0017, 0.017)]
    [TestCase(50.03, 0.02, 0.0017, 0.033)]
    [TestCase(0.95, 0.025, 0.005, 0.1)]
    public void WanderingPhase_Spread_HasItsMeanAndStandardDeviation(double meanHz, double spreadHz, double slowestHz, double fastestHz)
    {
        // The frequency by differences. Eight sines of equal deviation: variance spread² once each has run through many turns; the
        // time must also part neighbouring sines, and two of them can be close: 6 % over a thousand turns of the slowest.
        double sum = 0;
        double squares = 0;
        int count = 0;
        foreach (ulong seed in new ulong[] { 1, 2, 3, 4 })
        {
            var phase = new WanderingPhase(new KeyedRandom(seed, Name), meanHz, spreadHz, slowestHz, fastestHz);
            double step = 0.05 / fastestHz;
            for (double t = 0; t < 1000 / slowestHz; t += 3 * step)
            {
                double deviation = ((phase.Turns(t + (step / 2)) - phase.Turns(t - (step / 2))) / step) - meanHz;
                sum += deviation;
                squares += deviation * deviation;
                count++;
            }
        }

        Assert.That(sum / count, Is.Zero.Within(0.01 * spreadHz));
        Assert.That(Math.Sqrt(squares / count), Is.EqualTo(spreadHz).Within(6).Percent);
    }

    [TestCase(0.1, 0.01, 20)]
    [TestCase(0.08, 0.005, 3)]
    public void GaussianBand_LongRun_HasItsDeviationAndItsPlaceInTheSpectrum(double centreHz, double widthHz, double deviation)
    {
        // Mean square, and mean squares of the first two time derivatives by differences: they are the moments of the spectrum,
        // σ²·(2π)²·(c² + w²) for the first derivative of a band at c with standard deviation w.
        double mean = 0;
        double square = 0;
        double slope = 0;
        int count = 0;
        const double H = 0.01;
        foreach (ulong seed in new ulong[] { 1, 2, 3, 4, 5, 6, 7, 8 })
        {
            var band = new GaussianBand(new KeyedRandom(seed, Name), centreHz, widthHz, deviation);
            for (double t = 0; t < 20_000; t += 1.7)
            {
                double v = band.Value(t);
                double d = (band.Value(t + H) - band.Value(t - H)) / (2 * H);
                mean += v;
                square += v * v;
                slope += d * d;
                count++;
            }
        }

        Assert.That(mean / count, Is.Zero.Within(0.01 * deviation));
        Assert.That(Math.Sqrt(square / count), Is.EqualTo(deviation).Within(3).Percent);
        double hz = Math.Sqrt(slope / square) / (2 * Math.PI);
        Assert.That(hz, Is.EqualTo(Math.Sqrt((centreHz * centreHz) + (widthHz * widthHz))).Within(1).Percent);
    }

    [Test]
    public void GaussianBand_Lines_AreSpreadAsTheNormalDistribution()
    {
        // Power by a plain Fourier sum with a Hann window; inside ± one standard deviation of the band lies 68.3 % of all.
        double inside = 0;
        double all = 0;
        foreach (ulong seed in Enumerable.Range(1, 12).Select(s => (ulong)s))
        {
            var band = new GaussianBand(new KeyedRandom(seed, Name), 0.1, 0.01, 1);
            const double T = 4000;
            double[] windowed = [.. Enumerable.Range(0, (int)(T / 2)).Select(i => band.Value(2.0 * i) * (1 - Math.Cos(4 * Math.PI * i / T)))];
            for (int k = (int)(0.05 * T); k < 0.15 * T; k++)
            {
                double hz = k / T;
                double re = 0;
                double im = 0;
                for (int i = 0; i < windowed.Length; i++)
                {
                    re += windowed[i] * Math.Cos(4 * Math.PI * hz * i);
                    im += windowed[i] * Math.Sin(4 * Math.PI * hz * i);
                }

                double power = (re * re) + (im * im);
                all += power;
                inside += Math.Abs(hz - 0.1) <= 0.01 ? power : 0;
            }
        }

        // 16 lines for each of 12 seeds, one from each sixteenth of the distribution: 11 of 16 lie inside (0.6875), give or take one.
        Assert.That(inside / all, Is.EqualTo(0.683).Within(0.05));
    }

    [TestCase(0.25, 1, 250)]
    [TestCase(50.03, 1, 250)]
    [TestCase(50.03, 3, 500)]
    [TestCase(0.95, 2, 50)]
    public void Rotation_AnyGrid_IsTheSineOfThePhase(double frequencyHz, double multiple, double rateHz)
    {
        const double Spread = 0.01;
        const double Fastest = 0.03;
        var phase = new WanderingPhase(new KeyedRandom(5, Name), frequencyHz, Spread, 0.002, Fastest);
        var grid = new SampleGrid(0.0021, 1 / rateHz);
        double[] drawn = Read(new Rotation(phase, multiple), grid, 20_000, 250, 0.7, -0.4);

        // Between anchors the phase is a straight line: off by at most (64 × step)² / 8 × the fastest change of frequency, here at most
        // √(2/8) × spread for each of eight sines.
        double bound = Math.Pow(64 / rateHz, 2) / 8 * (8 * Math.Sqrt(0.25) * Spread * 2 * Math.PI * Fastest) * multiple * 2 * Math.PI * 0.81;
        for (int i = 0; i < drawn.Length; i++)
        {
            double angle = 2 * Math.PI * multiple * phase.Turns(grid.StartSeconds + (i * grid.StepSeconds));
            Assert.That(drawn[i], Is.EqualTo((0.7 * Math.Sin(angle)) - (0.4 * Math.Cos(angle))).Within(bound + 1e-9), $"sample {i}");
        }
    }

    [Test]
    public void Rotation_SteadyPhase_IsExactToRounding()
    {
        var phase = new WanderingPhase(new KeyedRandom(5, Name), 0.25, 0, 0.002, 0.03);
        double[] drawn = Read(new Rotation(phase, 1), new SampleGrid(0, 0.004), 100_000, 250, 1, 0);
        for (int i = 0; i < drawn.Length; i++)
        {
            Assert.That(drawn[i], Is.EqualTo(Math.Sin(2 * Math.PI * phase.Turns(i * 0.004))).Within(1e-11), $"sample {i}");
        }
    }

    [TestCase(1)]
    [TestCase(7)]
    [TestCase(64)]
    [TestCase(1000)]
    public void Rotation_AnyCut_GivesTheSameBits(int cut)
    {
        var phase = new WanderingPhase(new KeyedRandom(6, Name), 50.03, 0.02, 0.002, 0.03);
        var grid = new SampleGrid(0, 0.004);
        Assert.That(Read(new Rotation(phase, 1), grid, 5000, cut, 1, 0.5), Is.EqualTo(Read(new Rotation(phase, 1), grid, 5000, 5000, 1, 0.5)));
    }

    [Test]
    public void Rotation_StartInTheMiddleAndCopy_GiveTheSameBits()
    {
        var phase = new WanderingPhase(new KeyedRandom(6, Name), 50.03, 0.02, 0.002, 0.03);
        var grid = new SampleGrid(0, 0.004);
        double[] all = Read(new Rotation(phase, 1), grid, 1000, 1000, 1, 0);
        var rotation = new Rotation(phase, 1);
        double[] middle = new double[300];
        rotation.Add(middle, grid, 700, 1, 0);
        Assert.That(middle, Is.EqualTo(all[700..]));

        // Back to an earlier place, and a copy from the middle of a stretch between anchors.
        double[] again = new double[33];
        rotation.Add(again, grid, 5, 1, 0);
        Assert.That(again, Is.EqualTo(all[5..38]));
        Rotation copy = rotation.Copy();
        double[] one = new double[100];
        double[] two = new double[100];
        rotation.Add(one, grid, 38, 1, 0);
        copy.Add(two, grid, 38, 1, 0);
        Assert.That(one, Is.EqualTo(all[38..138]));
        Assert.That(two, Is.EqualTo(one));
    }

    private static double[] Read(Rotation rotation, SampleGrid grid, int count, int cut, double amplitude, double quadrature)
    {
        double[] all = new double[count];
        for (int done = 0; done < count; done += cut)
        {
            rotation.Add(all.AsSpan(done, Math.Min(cut, count - done)), grid, done, amplitude, quadrature);
        }

        return all;
    }
}
