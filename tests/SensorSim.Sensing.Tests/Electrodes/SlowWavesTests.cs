// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>The slow parts of the ECG's baseline against their definitions.</summary>
public sealed class SlowWavesTests
{
    // From a hardly moving phase to half a turn in eight samples, where the recurrence of the sine alone has least to stand on.
    [Test]
    public void SteadySines_AnyStep_AreSineAndCosine([Values(0, 1e-9, 1e-4, 0.0123, 0.0625, 0.2, 0.3)] double stepTurns)
    {
        double from = 2 * Math.PI * 0.137;
        double step = 2 * Math.PI * stepTurns;
        double[] sines = new double[128];
        double[] cosines = new double[128];
        double[] slow = new double[128];
        SteadySines.Fill(new Phasor(Math.Cos(from), Math.Sin(from)), new Phasor(Math.Cos(step), Math.Sin(step)), sines, cosines);
        SteadySines.FillSlow(new Phasor(Math.Cos(from), Math.Sin(from)), new Phasor(Math.Cos(step), Math.Sin(step)), slow);
        for (int i = 0; i < sines.Length; i++)
        {
            // A turn by i steps multiplies the rounding of one step, 1e-16, by i; the sine alone gathers 16² of them.
            Assert.That(sines[i], Is.EqualTo(Math.Sin(from + (i * step))).Within(1e-13), $"sine {i}");
            Assert.That(cosines[i], Is.EqualTo(Math.Cos(from + (i * step))).Within(1e-13), $"cosine {i}");
            Assert.That(slow[i], Is.EqualTo(Math.Sin(from + (i * step))).Within(2e-13), $"sine alone {i}");
        }
    }

    // Without a wander of the frequency a stretch between anchors is what the phase is. 10 Hz: stretches of eight samples.
    [Test]
    public void BreathingBaseline_OfASteadyPhase_IsItsSine([Values(10, 250, 2000)] double rate)
    {
        var phase = new WanderingPhase(new KeyedRandom(9, "test.breathing"), 0.27, 0, 0.01, 0.1);
        var grid = new SampleGrid(0.0003, 1 / rate);
        double[] x = new double[3000];
        new BreathingBaseline(phase, grid).Add(x, 0, 0.1);
        for (int i = 0; i < x.Length; i++)
        {
            Assert.That(x[i], Is.EqualTo(0.1 * Math.Sin(2 * Math.PI * phase.Turns(grid.Seconds(i)))).Within(1e-12), $"sample {i}");
        }
    }

    // The frequency changes by at most 8 √(2/8) 0.05 Hz · 2π · 0.1 Hz; lines of 0.65 s are off by at most that times (0.65 s)²/8.
    [Test]
    public void BreathingBaseline_OfAWanderingPhase_StaysWithIt()
    {
        var phase = new WanderingPhase(new KeyedRandom(9, "test.breathing"), 0.27, 0.05, 0.01, 0.1);
        var grid = new SampleGrid(0, 1 / 250.0);
        double[] x = new double[250 * 300];
        new BreathingBaseline(phase, grid).Add(x, 0, 1);
        double mostTurns = 8 * Math.Sqrt(0.25) * 0.05 * 2 * Math.PI * 0.1 * 0.65 * 0.65 / 8;
        for (int i = 0; i < x.Length; i++)
        {
            Assert.That(x[i], Is.EqualTo(Math.Sin(2 * Math.PI * phase.Turns(grid.Seconds(i)))).Within(2 * Math.PI * mostTurns), $"sample {i}");
        }
    }

    [Test]
    public void BaselineWander_IsTheSmoothNoiseOfItsSource([Values(100, 250, 1000)] double rate)
    {
        var random = new KeyedRandom(10, "test.wander");
        var grid = new SampleGrid(0.0011, 1 / rate);
        double[] expected = new double[5000];
        double[] x = new double[5000];
        new SmoothNoise(random, 0.5, 0.3).Add(expected, grid, 1234);
        new BaselineWander(random, grid).Make(x, 1234, 0.3);
        Assert.That(x, Is.EqualTo(expected).Within(1e-12));
    }
}
