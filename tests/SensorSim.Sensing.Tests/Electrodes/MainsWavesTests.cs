// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>The waves of the mains against their definition: sines and cosines of multiples of the phase, times the swell.</summary>
public sealed class MainsWavesTests
{
    private static readonly Vector256<double> s_sine = Vector256.Create(0.7, -0.3, 0.2, 0);
    private static readonly Vector256<double> s_cosine = Vector256.Create(-0.1, 0.45, 0.6, 0);

    private static WanderingPhase Phase(double wanderHz) => new(new KeyedRandom(6, "test.mains"), 50.03, wanderHz, 0.0017, 0.033);

    // Without wander a stretch between anchors is what the phase is. 50 and 90 Hz: stretches of 8 and 24 samples.
    [Test]
    public void Add_WithoutWander_IsTheDefinition([Values(50, 90, 250, 2000)] double rate, [Values(0.0, 0.4)] double depth)
    {
        var grid = new SampleGrid(0.0003, 1 / rate);
        KeyValues values = new KeyValues().Set(MainsKeys.ModulationPercent, 40).Set(MainsKeys.ModulationHz, 10);
        double[] x = new double[1000];
        new MainsWaves(values, 6, grid, Phase(0)).Add(x, 0, s_sine, s_cosine, depth);
        var swell = new WanderingPhase(new KeyedRandom(6, "mains.modulation"), 10, 0, 0.0017, 0.033);
        for (int i = 0; i < x.Length; i++)
        {
            double expected = 0;
            double phase = 2 * Math.PI * Phase(0).Turns(grid.Seconds(i));
            for (int k = 0; k < 3; k++)
            {
                expected += (s_sine.GetElement(k) * Math.Sin((k + 1) * phase)) + (s_cosine.GetElement(k) * Math.Cos((k + 1) * phase));
            }

            expected *= 1 + (depth * Math.Sin(2 * Math.PI * swell.Turns(grid.Seconds(i))));
            Assert.That(x[i], Is.EqualTo(expected).Within(1e-9), $"sample {i}");
        }
    }

    // With the largest wander: eight sines of 0.1 Hz each, whose frequencies sum up to 0.1 Hz at most, so the frequency changes by at most 2π · 0.01 Hz/s;
    // lines of 0.3 s are off by that times (0.3 s)²/8, 0.71 thousandths of a turn.
    [Test]
    public void Add_WithTheLargestWander_StaysWithThePhase()
    {
        var grid = new SampleGrid(0, 1 / 200.0);
        double[] x = new double[200 * 600];
        new MainsWaves(new KeyValues(), 6, grid, Phase(0.2)).Add(x, 0, Vector256.CreateScalar(1.0), Vector256<double>.Zero, 0);
        WanderingPhase phase = Phase(0.2);
        for (int i = 0; i < x.Length; i++)
        {
            Assert.That(x[i], Is.EqualTo(Math.Sin(2 * Math.PI * phase.Turns(grid.Seconds(i)))).Within(2 * Math.PI * 0.00071));
        }
    }

    // Whatever is asked for in between, by whom, and after a rest: a copy begins with nothing made.
    [Test]
    public void Add_InAnyPieces_GivesTheSameBits()
    {
        var grid = new SampleGrid(0.0003, 1 / 250.0);
        KeyValues values = new KeyValues().Set(MainsKeys.ModulationPercent, 40);
        var waves = new MainsWaves(values, 6, grid, Phase(0.02));
        double[] whole = new double[3000];
        waves.Add(whole, 0, s_sine, s_cosine, 0.4);
        foreach (int length in new[] { 1, 17, 250 })
        {
            double[] cut = new double[whole.Length];
            for (int done = 0; done < cut.Length; done += length)
            {
                Span<double> part = cut.AsSpan(done, Math.Min(length, cut.Length - done));
                (done % 3 == 0 ? waves.Copy() : waves).Add(part, done, s_sine, s_cosine, 0.4);
            }

            Assert.That(cut, Is.EqualTo(whole), $"pieces of {length}");
        }
    }
}
