// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>One-pole recurrences in lanes against their definition, one sample after the other.</summary>
public sealed class OnePoleTests
{
    [TestCase(0.0)]
    [TestCase(0.3)]
    [TestCase(0.999)]
    public void Next_OfLanes_IsTheRecurrence(double keep)
    {
        double[] d = Draws(400);
        var lanes = new OnePoleLanes(keep, 0.7);
        double y = 0.7;
        for (int i = 0; i < d.Length; i += 4)
        {
            Vector256<double> four = lanes.Next(Vector256.Create<double>(d.AsSpan(i)));
            for (int lane = 0; lane < 4; lane++)
            {
                // Of a sum of 1 / (1 - keep) terms of size 1: roundings of that many.
                y = (keep * y) + d[i + lane];
                Assert.That(four.GetElement(lane), Is.EqualTo(y).Within(1e-13 / (1 - keep)), $"output {i + lane}");
            }
        }
    }

    [Test]
    public void Apply_OfTheCubicLowPass_IsItsDefinition()
    {
        var weights = new CubicLowPass(2, 0.01);
        double[] x = Draws(103);
        double[] target = new double[100];
        weights.Apply(x, target, -0.4, 1.5);
        double y = -0.4;
        for (int i = 0; i < target.Length; i++)
        {
            y = (weights.Keep * y)
                + (1.5 * ((weights.Before * x[i]) + (weights.From * x[i + 1]) + (weights.To * x[i + 2]) + (weights.After * x[i + 3])));
            Assert.That(target[i], Is.EqualTo(y).Within(1e-14), $"output {i}");
        }
    }

    // The low-pass keeps a level as it is: its weights sum to 1.
    [Test]
    public void Apply_OfALevel_KeepsIt()
    {
        double[] target = new double[40];
        double[] level = new double[43];
        Array.Fill(level, 3.0);
        new CubicLowPass(2, 0.01).Apply(level, target, 3, 1);
        Assert.That(target, Has.All.EqualTo(3).Within(1e-13));
    }

    private static double[] Draws(int count)
    {
        double[] draws = new double[count];
        new KeyedRandom(3, "test.one_pole").AddNormals(draws, 0, 1);
        return draws;
    }
}
