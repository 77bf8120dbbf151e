// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>Several multiples turned side by side are the sum of the same multiples turned alone.</summary>
[TestFixture]
public sealed class RotationGroupTests
{
    private static readonly Vector256<double> s_sine = Vector256.Create(0.8, -0.2, 0.05, 0.3);
    private static readonly Vector256<double> s_cosine = Vector256.Create(0, 0.3, 0.1, -0.4);
    private static readonly double[] s_multiples = [1, 2, 4, 6];

    private static WanderingPhase Phase() => new(new KeyedRandom(3, "test.group"), 0.95, 0.025, 0.005, 0.1);

    [TestCase(250)]
    [TestCase(100)]
    [TestCase(25)]
    public void Add_FourMultiples_IsTheSumOfFourRotations(int rateHz)
    {
        var grid = new SampleGrid(0.0005, 1.0 / rateHz);
        double[] together = new double[2000];
        new RotationGroup(Phase(), s_multiples).Add(together, grid, 0, s_sine, s_cosine);
        double[] alone = new double[2000];
        for (int i = 0; i < s_multiples.Length; i++)
        {
            new Rotation(Phase(), s_multiples[i]).Add(alone, grid, 0, s_sine[i], s_cosine[i]);
        }

        // The same recurrences, summed in another order.
        Assert.That(together, Is.EqualTo(alone).Within(1e-12));
        Assert.That(together.Max(), Is.GreaterThan(0.5));
    }

    // 250, 100 and 25 Hz: an anchor every 64, 28 and 4 samples (64 at most, 0.3 s at most, a multiple of four).
    [TestCase(250, 64)]
    [TestCase(100, 28)]
    [TestCase(25, 4)]
    public void Add_AtAnchors_IsTheSumOfTheSinesOfThePhase(int rateHz, int anchorSamples)
    {
        var grid = new SampleGrid(0.0005, 1.0 / rateHz);
        double[] drawn = new double[20 * anchorSamples];
        new RotationGroup(Phase(), s_multiples).Add(drawn, grid, 0, s_sine, s_cosine);
        for (int i = 0; i < drawn.Length; i += anchorSamples)
        {
            double turns = Phase().Turns(grid.Seconds(i));
            double expected = 0;
            for (int k = 0; k < s_multiples.Length; k++)
            {
                double angle = 2 * Math.PI * Math.IEEERemainder(s_multiples[k] * turns, 1);
                expected += (s_sine[k] * Math.Sin(angle)) + (s_cosine[k] * Math.Cos(angle));
            }

            Assert.That(drawn[i], Is.EqualTo(expected).Within(1e-12), $"sample {i}");
        }
    }

    [TestCase(1)]
    [TestCase(7)]
    [TestCase(64)]
    [TestCase(333)]
    public void Add_AnyCut_GivesTheSameBits(int block)
    {
        var grid = new SampleGrid(0, 0.01);
        double[] whole = new double[1000];
        new RotationGroup(Phase(), s_multiples).Add(whole, grid, 0, s_sine, s_cosine);
        double[] cut = new double[1000];
        var group = new RotationGroup(Phase(), s_multiples);
        for (int i = 0; i < cut.Length; i += block)
        {
            group.Add(cut.AsSpan(i, Math.Min(block, cut.Length - i)), grid, i, s_sine, s_cosine);
        }

        Assert.That(cut, Is.EqualTo(whole));
    }

    [Test]
    public void Add_StartInTheMiddleOrAgain_GivesTheSameBits()
    {
        var grid = new SampleGrid(0, 0.01);
        double[] whole = new double[500];
        var group = new RotationGroup(Phase(), s_multiples);
        group.Add(whole, grid, 0, s_sine, s_cosine);
        double[] tail = new double[263];
        group.Add(tail, grid, 237, s_sine, s_cosine);
        Assert.That(tail, Is.EqualTo(whole[237..]));
        double[] fresh = new double[263];
        new RotationGroup(Phase(), s_multiples).Add(fresh, grid, 237, s_sine, s_cosine);
        Assert.That(fresh, Is.EqualTo(whole[237..]));
    }

    [Test]
    public void New_FiveMultiples_IsRefused() =>
        Assert.That(() => new RotationGroup(Phase(), [1, 2, 3, 4, 5]), Throws.TypeOf<ArgumentOutOfRangeException>());
}
