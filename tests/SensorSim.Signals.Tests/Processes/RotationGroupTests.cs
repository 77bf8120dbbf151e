// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>Several multiples turned side by side are the sum of the same multiples turned alone.</summary>
[TestFixture]
public sealed class RotationGroupTests
{
    private static readonly Vector256<double> s_sine = Vector256.Create(0.8, -0.2, 0.05, 0);
    private static readonly Vector256<double> s_cosine = Vector256.Create(0, 0.3, 0.1, 0);
    private static readonly double[] s_multiples = [1.5, 3, 4.5];

    private static WanderingPhase Phase() => new(new KeyedRandom(3, "test.group"), 0.95, 0.025, 0.005, 0.1);

    [TestCase(250)]
    [TestCase(100)]
    [TestCase(25)]
    public void Add_ThreeMultiples_IsTheSumOfThreeRotations(int rateHz)
    {
        var grid = new SampleGrid(0.0005, 1.0 / rateHz);
        double[] together = new double[2000];
        new RotationGroup(Phase(), s_multiples).Add(together, grid, 0, s_sine, s_cosine);
        double[] alone = new double[2000];
        for (int i = 0; i < s_multiples.Length; i++)
        {
            new Rotation(Phase(), s_multiples[i]).Add(alone, grid, 0, s_sine[i], s_cosine[i]);
        }

        // Each alone is turned by itself; together the second and third follow from the first.
        Assert.That(together, Is.EqualTo(alone).Within(1e-12));
        Assert.That(together.Max(), Is.GreaterThan(0.5));
    }

    // 250, 100, 50, 25 and 5 Hz: an anchor every 64, 64, 32, 16 and 8 samples (64 or half of that until 0.65 s at most, at least eight).
    [TestCase(250, 64)]
    [TestCase(100, 64)]
    [TestCase(50, 32)]
    [TestCase(25, 16)]
    [TestCase(5, 8)]
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

    // What one asks for stays there for those who follow: any number of cuts behind, at instants in between.
    [TestCase(0.0)]
    [TestCase(0.0003)]
    [TestCase(0.0091)]
    public void Add_OnASharedGroup_IsThePhaseAtTheOwnInstants(double late)
    {
        var grid = new SampleGrid(0.0005, 0.01);
        var own = new SampleGrid(0.0005 + late, 0.01);
        var group = new RotationGroup(Phase(), s_multiples, grid, 100);
        double[] drawn = new double[1000];
        for (int i = 0; i < drawn.Length; i += 100)
        {
            group.Add(new double[100], grid, i, s_sine, s_cosine);
            group.Add(drawn.AsSpan(i, 37), own, i, s_sine, s_cosine, 5);
            group.Add(drawn.AsSpan(i + 37, 63), own, i + 37, s_sine, s_cosine, 5);
        }

        double[] alone = new double[1000];
        new RotationGroup(Phase(), s_multiples).Add(alone, own, 0, s_sine, s_cosine);
        for (int i = 0; i < drawn.Length; i++)
        {
            // Both lie on straight lines between points of the phase 0.64 s apart, 9 ms beside each other: a small part of that error of
            // 0.64² / 8 × the fastest change of frequency (0.025 Hz × 2π × 0.1 Hz × 2), times 4.5 × 2π.
            Assert.That(drawn[i] - 5, Is.EqualTo(alone[i]).Within(late == 0 ? 1e-12 : 0.045), $"sample {i}");
        }

        // As close as the line lies to the phase: far closer than the angle in between, which is up to 0.2 rad.
        double apart = drawn.Zip(alone, (a, b) => Math.Abs(a - 5 - b)).Average();
        Assert.That(apart, Is.LessThan(late == 0 ? 1e-12 : 0.002));
    }

    [Test]
    public void Copy_OfASharedGroup_GivesTheSameBits()
    {
        var grid = new SampleGrid(0, 0.01);
        var own = new SampleGrid(0.002, 0.01);
        var group = new RotationGroup(Phase(), s_multiples, grid, 100);
        group.Add(new double[150], grid, 0, s_sine, s_cosine);
        RotationGroup copy = group.Copy();
        double[] expected = new double[300];
        group.Add(expected, own, 137, s_sine, s_cosine);
        double[] drawn = new double[300];
        copy.Add(drawn, own, 137, s_sine, s_cosine);
        Assert.That(drawn, Is.EqualTo(expected));
    }

    [Test]
    public void New_FourMultiples_IsRefused() =>
        Assert.That(() => new RotationGroup(Phase(), [1, 2, 3, 4]), Throws.TypeOf<ArgumentOutOfRangeException>());

    [Test]
    public void New_OtherMultiplesThanThoseOfTheFirst_IsRefused() =>
        Assert.That(() => new RotationGroup(Phase(), [1, 3]), Throws.TypeOf<ArgumentOutOfRangeException>());
}
