// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;

namespace SensorSim.Detection.Tests.Gate;

[TestFixture]
public sealed class GatePartsTests
{
    [TestCase(100)]
    [TestCase(500)]
    [TestCase(1000)]
    [TestCase(32_000)]
    [TestCase(1_000_000_000)]
    public void AUnitIsAboutAMillisecond(long ticksPerSecond)
    {
        var time = new GateTime();
        time.Start(new CommonClock(ticksPerSecond));
        int second = time.Units(ticksPerSecond * 256);
        Assert.That(second, Is.InRange(1024, 2047));
        Assert.That(time.FromMs(1000), Is.EqualTo(second).Within(2));
        Assert.That(time.FromMs(30_000), Is.EqualTo(30 * second).Within(60));
        Assert.That(time.Ticks256(second), Is.EqualTo(ticksPerSecond * 256).Within(ticksPerSecond / 4));
        Assert.That(time.Units(-5), Is.Zero);
        Assert.That(time.Units(long.MaxValue), Is.EqualTo(int.MaxValue));
    }

    [Test]
    public void HeightsAreAlikeWithinThreeEighthsOfAnOctave([Values(3, 90, 1000, 123_456, 8_000_000)] int height)
    {
        // Ratios 2^±3/8 = 1.297 and 0.771; the scale bends by at most 5.5/64 octave at either end.
        Assert.That(Faults(height, 1.13), Is.Zero);
        Assert.That(Faults(height, 0.89), height > 10 ? Is.Zero : Is.LessThan(2));
        Assert.That(Faults(height, 1.49), Is.EqualTo(1));
        Assert.That(Faults(height, 0.66), Is.EqualTo(1));
        Assert.That(Faults(height, -1), Is.EqualTo(1));
        Assert.That(Faults(height, 0), Is.EqualTo(1));
    }

    [Test]
    public void ExtremeHeightsAreTaken([Values(int.MinValue, int.MaxValue, 0)] int height)
    {
        var evidence = new Evidence();
        GateTime time = Time();
        for (int i = 0; i < 8; i++)
        {
            evidence.Add(time, i * 100_000L, height, startsRun: false);
        }

        Assert.That(evidence.Faults, Is.Zero);
    }

    // Intervals in thousandths; the last two cut one of 800, or do not.
    [TestCase(400, 400, true)]
    [TestCase(250, 550, true)]
    [TestCase(250, 660, true)]
    [TestCase(250, 720, false)]
    [TestCase(500, 1100, false, TestName = "An early beat and its pause")]
    [TestCase(800, 800, false)]
    [TestCase(800, 400, false)]
    public void ACutIntervalIsSeen(int first, int second, bool isCut)
    {
        var evidence = new Evidence();
        GateTime time = Time();
        double at = 0;
        foreach (int ms in (int[])[0, 800, 800, 800, 800, 800, 800, first, second])
        {
            at += ms;
            evidence.Add(time, (long)(at * 128), 1000, startsRun: false);
        }

        Assert.That(evidence.IsCut, Is.EqualTo(isCut));
        Assert.That(evidence.HasCut(), Is.EqualTo(isCut));
        evidence.Add(time, (long)((at + 800) * 128), 1000, startsRun: false);
        Assert.That(evidence.IsCut, Is.False);
        Assert.That(evidence.HasCut(), Is.EqualTo(isCut), "it is remembered");
    }

    // The beat before last is early and of another height, or two are.
    [TestCase(new[] { 450, 800 }, new[] { -1700, 1000 }, true, TestName = "A stranger, no pause")]
    [TestCase(new[] { 450, 1150 }, new[] { -1700, 1000 }, false, TestName = "An ectopic beat and its pause")]
    [TestCase(new[] { 450, 450, 1150 }, new[] { -1700, -1600, 1000 }, false, TestName = "Two ectopic beats and a pause")]
    [TestCase(new[] { 450, 800 }, new[] { 1000, 1000 }, false, TestName = "An early beat of the same height")]
    [TestCase(new[] { 1200, 1200 }, new[] { 1900, 1000 }, true, TestName = "Two intervals for three")]
    [TestCase(new[] { 540, 540, 520 }, new[] { 1000, 1900, 1000 }, true, TestName = "Three intervals for two")]
    [TestCase(new[] { 540, 540, 520 }, new[] { 1000, 1000, 1000 }, false, TestName = "Heights alike, no verdict")]
    public void BrokenRhythmsAreSeen(int[] intervals, int[] heights, bool isBroken)
    {
        var evidence = new Evidence();
        GateTime time = Time();
        double at = 0;
        bool has = false;
        for (int i = 0; i < 7 + intervals.Length; i++)
        {
            at += i < 7 ? 800 : intervals[i - 7];
            evidence.Add(time, (long)(at * 128), i < 7 ? 1000 : heights[i - 7], startsRun: false);
            has |= evidence.IsBroken;
        }

        Assert.That(has, Is.EqualTo(isBroken));
        Assert.That(evidence.HasBreak(), Is.EqualTo(isBroken));
    }

    [Test]
    public void BackCountsIntervals()
    {
        var evidence = new Evidence();
        GateTime time = Time();
        for (int i = 0; i < 12; i++)
        {
            evidence.Add(time, i * 100_000L, 1000, startsRun: false);
        }

        Assert.That(evidence.Back(time, 4), Is.EqualTo(7 * 100_000L).Within(4 * time.Ticks256(1)).And.LessThanOrEqualTo(7 * 100_000L));
        Assert.That(evidence.Back(time, 20), Is.EqualTo(3 * 100_000L).Within(8 * time.Ticks256(1)));
    }

    [Test]
    public void TheLatchWaitsLongerEachTimeAndForgives()
    {
        var latch = new GateLatch();
        latch.Start();
        GateTime time = Time();
        double now = 1;
        Assert.That(Next(GateReason.None), Is.True, "the first opening does not wait");
        foreach (double waitS in (double[])[6, 12, 12])
        {
            now += 2;
            Assert.That(Next(GateReason.Irregular), Is.True);
            now += waitS - 0.05;
            Assert.That(Next(GateReason.None), Is.False);
            now += 0.1;
            Assert.That(Next(GateReason.None), Is.True);
        }

        now += 31;
        Next(GateReason.Irregular);
        now += 3.05;
        Assert.That(Next(GateReason.None), Is.True, "half a minute without a fault");

        // What the sensor reports is nobody's mistake.
        foreach (GateReason reason in (GateReason[])[GateReason.NoContact, GateReason.Saturated, GateReason.NoSamples, GateReason.Movement])
        {
            now += 2;
            Next(reason);
            Assert.That(latch.Reason, Is.EqualTo(reason));
            now += 3.05;
            Assert.That(Next(GateReason.None), Is.True);
        }

        bool Next(GateReason reason) => latch.Next(time, GateScript.Ticks256(now), reason);
    }

    [Test]
    public void TheReasonFollowsWhileShut()
    {
        var latch = new GateLatch();
        latch.Start();
        GateTime time = Time();
        Assert.That(latch.Next(time, 0, GateReason.TooWeak), Is.False);
        Assert.That(latch.Reason, Is.EqualTo(GateReason.TooWeak));
        Assert.That(latch.Next(time, 0, GateReason.NoContact), Is.False);
        Assert.That(latch.Reason, Is.EqualTo(GateReason.NoContact));
    }

    private static GateTime Time()
    {
        var time = new GateTime();
        time.Start(new CommonClock(GateScript.TicksPerSecond));
        return time;
    }

    private static int Faults(int height, double ratio)
    {
        var evidence = new Evidence();
        GateTime time = Time();
        for (int i = 0; i < 7; i++)
        {
            evidence.Add(time, i * 100_000L, height, startsRun: false);
        }

        evidence.Add(time, 700_000, (int)Math.Round(height * ratio), startsRun: false);
        return evidence.HeightFaults;
    }
}
