// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>Pacing spikes behind the two-pole low-pass, against numerical convolution.</summary>
public sealed class SpikeTests
{
    [TestCase(0.1, 100)]
    [TestCase(0.5, 100)]
    [TestCase(2, 100)]
    [TestCase(0.5, 400)]
    [TestCase(2, 12.8)]
    public void Response_ToARectangle_IsItsConvolutionWithTheImpulseResponse(double widthMs, double cornerHz)
    {
        // Impulse response of ω²/(s + ω)²: ω²·t·e^(−ωt) (tables of the Laplace transform). −3 dB where 1 + (2πf/ω)² = √2.
        double omega = 2 * Math.PI * cornerHz / Math.Sqrt(Math.Sqrt(2) - 1);
        var spike = new PacingSpike(0.01, widthMs * 1e-3, -2.5);
        const int Steps = 4000;
        double width = widthMs * 1e-3;
        double[] at = [0.01 + (0.3 * width), 0.01 + width, 0.01 + width + (0.5 / omega), 0.01 + width + (5 / omega)];
        foreach (double t in at)
        {
            double sum = 0;
            for (int i = 0; i < Steps; i++)
            {
                double age = t - (0.01 + ((i + 0.5) * width / Steps));
                sum += age > 0 ? omega * omega * age * Math.Exp(-omega * age) * width / Steps : 0;
            }

            Assert.That(ActiveSpike.Response(spike, ActiveSpike.Omega(cornerHz), t), Is.EqualTo(-2.5 * sum).Within(2e-6));
        }
    }

    [Test]
    public void Corner_GainOfTheLowPass_IsMinus3Decibels()
    {
        double omega = ActiveSpike.Omega(100);
        double gain = 1 / (1 + Math.Pow(2 * Math.PI * 100 / omega, 2));
        Assert.That(20 * Math.Log10(gain), Is.EqualTo(10 * Math.Log10(0.5)).Within(1e-9));
    }

    [Test]
    public void Drawn_AreaAndPeak_AreThoseOfTheRectangleAndOfAShortImpulse()
    {
        // Area: height × width, since the gain at 0 Hz is 1. Peak of a short impulse: ω·t·e^(−ωt) is 1/e at t = 1/ω, so area × ω / e.
        var spike = new PacingSpike(0.02, 0.2e-3, 3);
        var grid = new SampleGrid(0, 1e-5);
        double[] drawn = Draw(spike, grid, 100, 20000, 20000);
        Assert.That(drawn.Sum() * 1e-5, Is.EqualTo(3 * 0.2e-3).Within(1e-9));
        Assert.That(drawn.Max(), Is.EqualTo(3 * 0.2e-3 * ActiveSpike.Omega(100) / Math.E).Within(0.01 * drawn.Max()));
        Assert.That(drawn.Take(2000).All(v => v == 0), "nothing before it begins");
    }

    [Test]
    public void Drawn_AtAnyPlaceBetweenSamples_KeepsItsAreaOnAverage()
    {
        // The sum of samples is the area plus the images at multiples of the sampling rate (Poisson's summation), which these two poles leave
        // at 0.28, 0.09, ... of it: it moves with the spike's place between two samples, and its mean over all places is the area.
        var grid = new SampleGrid(0, 1.0 / 250);
        double[] areas = [.. Enumerable.Range(0, 40).Select(i => Draw(new PacingSpike(0.1 + (i * 1e-4), 0.5e-3, 2), grid, 100, 100, 100).Sum() / 250)];
        Assert.That(areas.Average(), Is.EqualTo(2 * 0.5e-3).Within(1e-8));
        double images = Enumerable.Range(1, 1000).Sum(k => 1 / (1 + Math.Pow(2 * Math.PI * 250 * k / ActiveSpike.Omega(100), 2)));
        Assert.That(areas.Max(), Is.LessThan((1 + (2 * images)) * areas.Average()));
        Assert.That(areas.Min(), Is.GreaterThan((1 - (2 * images)) * areas.Average()));
    }

    [TestCase(1)]
    [TestCase(3)]
    [TestCase(7)]
    public void Drawn_AnyCut_GivesTheSameBits(int cut)
    {
        var grid = new SampleGrid(0.0003, 1.0 / 1000);
        var spike = new PacingSpike(0.0777, 1.3e-3, 2);
        Assert.That(Draw(spike, grid, 400, 300, cut), Is.EqualTo(Draw(spike, grid, 400, 300, 300)));
    }

    [Test]
    public void Knobs_MakeTheSpike_AndOnlyPacedScenariosNeedAny()
    {
        KeyValues values = new KeyValues().Set(PacingKeys.SpikeMv, 4).Set(PacingKeys.SpikeMs, 1).Set(EcgKeys.Polarity, "swapped");
        Assert.That(new SpikeShape(values).Lay(12), Is.EqualTo(new PacingSpike(12, 1e-3, -4)));
        Assert.That(SpikeGrid.IsNeeded(values), Is.False);
        Assert.That(SpikeGrid.IsNeeded(values.Copy().SetChanges(HeartKeys.Rhythm, [(10, "paced")])), Is.True);
    }

    private static double[] Draw(PacingSpike spike, SampleGrid grid, double cornerHz, int count, int cut)
    {
        double[] buffer = new double[count];
        BeatView beat = default;
        beat.Spikes[1] = spike;
        Assert.That(ActiveSpike.TryStart(beat, 0, 1, grid, out _), Is.False, "width 0 is absent");
        Assert.That(ActiveSpike.TryStart(beat, 1, (int)Math.Round(cornerHz * 1000), grid, out ActiveSpike wave), Is.True);
        while (wave.Next <= Math.Min(wave.Last, count - 1))
        {
            int next = (int)wave.Next;
            wave.Draw(buffer.AsSpan(next, (int)Math.Min(cut, Math.Min(wave.Last, count - 1) - next + 1)));
        }

        return buffer;
    }
}
