// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PulseGapTests
{
    private static LogNormalPulse Train(double untilS = 40, int rateHz = 100) =>
        new LogNormalPulse { SnrDb = 42, RateHz = rateHz }.AddTrain(0.5137, untilS, 0.83);

    [TestCase(100)]
    [TestCase(250)]
    public void Restart_ShortGapInDiastole_LosesNothing(int rateHz)
    {
        LogNormalPulse light = Train(rateHz: rateHz);
        LogNormalPulse.Landmarks pulse = light.Truth()[24];
        int first = (int)((pulse.FootS - 0.25) * rateHz);
        int count = 15 * rateHz / 100;
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 5001), i => i >= first && i < first + count);
        Runs.Score foot = PulseRun.Feet(light, found, 8, 39);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(foot.SdMs, Is.LessThan(1.2));
        Assert.That(found.Skip(1).Select(p => p.StartsRun), Is.All.False);
    }

    [Test]
    public void Restart_ShortGapOverAnUpstroke_HidesThatPulseAndSaysSo()
    {
        LogNormalPulse light = Train();
        LogNormalPulse.Landmarks pulse = light.Truth()[24];
        int first = (int)((pulse.FootS - 0.02) * 100);
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 5002), i => i >= first && i < first + 12);
        Runs.Score foot = PulseRun.Feet(light, found, 8, 39);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((1, 0)));
        PulseEvent next = found.First(p => Runs.Seconds(p.Foot, 100) > pulse.FootS + 0.4);
        Assert.That(next.StartsRun, Is.True);
        Assert.That(found.Skip(1).Count(p => p.StartsRun), Is.EqualTo(1));
    }

    [Test]
    public void Restart_OneSampleMissing_StillTellsThePulse([Range(-4, 12, 2)] int after)
    {
        LogNormalPulse light = Train();
        LogNormalPulse.Landmarks pulse = light.Truth()[24];
        int missing = (int)(pulse.FootS * 100) + after;
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 5003), i => i == missing);
        Runs.Score foot = PulseRun.Feet(light, found, 8, 39);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        double error = found.Min(p => Math.Abs(Runs.Seconds(p.Foot, 100) - pulse.FootS)) * 1000;
        Assert.That(error, Is.LessThan(4));
    }

    [Test]
    public void Restart_LongGap_BeginsARunAndKeepsTheLevel()
    {
        LogNormalPulse light = Train();
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 5004), i => i is >= 2000 and < 2100);
        PulseEvent[] after = [.. found.Where(p => p.Foot.Sample >= 2100)];
        Assert.That(after[0].StartsRun, Is.True);
        Assert.That(after[1].StartsRun, Is.False);

        // The first whole pulse after the gap is told: no new learning time.
        double first = light.Truth().First(t => t.FootS > 21.05).FootS;
        Assert.That(Runs.Seconds(after[0].Foot, 100), Is.EqualTo(first).Within(0.005));
    }

    // Learning must get on although a run never lasts two seconds.
    [TestCase(170, 40)]
    [TestCase(130, 30)]
    [TestCase(110, 12)]
    public void Restart_GapsAllTheTime_AreLearnedThrough(int every, int missing)
    {
        LogNormalPulse light = Train();
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 5005), i => i % every < missing);
        Assert.That(found, Is.Not.Empty);
        Assert.That(Runs.Seconds(found[0].Foot, 100), Is.LessThan(6));
        Runs.Score foot = PulseRun.Feet(light, found, 8, 39);
        Assert.That(foot.Extra, Is.Zero);
        Assert.That(foot.SdMs, Is.LessThan(2));

        // What a gap can hide: pulses with a gap in the 250 ms from before the foot to past the peak.
        int hidden = light.Truth().Count(t => t.FootS is >= 8 and < 39 && Enumerable.Range((int)((t.FootS - 0.1) * 100), 35).Any(i => i % every < missing));
        Assert.That(foot.Missed, Is.LessThanOrEqualTo(hidden));
    }

    [Test]
    public void Take_AnyBlocksWithGapsAndSteps_GivesTheSame([Values(1, 7, 17, 250)] int block, [Values(100, 256)] int rateHz)
    {
        LogNormalPulse light = Train(rateHz: rateHz);
        int[] codes = light.Make(40, 5006, t => t < 21.3 ? 1 : 2);
        int[] steps = [(int)(21.3 * rateHz) + 1];
        bool IsMissing(int i) => i % (7 * rateHz) < rateHz / 8 || i % (11 * rateHz) < rateHz / 2;
        List<PulseEvent> whole = PulseRun.Over(light, codes, IsMissing, steps);
        Assert.That(whole, Has.Count.GreaterThan(25));
        Assert.That(PulseRun.Over(light, codes, IsMissing, steps, block), Is.EqualTo(whole));
    }

    // The systolic peak may be decided on the line that bridges a gap: the sample whose arrival led to that is the one after it.
    [Test]
    public void Take_PulseDecidedOnTheBridge_IsFoundWithTheNextSample()
    {
        LogNormalPulse light = Train();
        int[] codes = light.Make(40, 5007);
        LogNormalPulse.Landmarks pulse = light.Truth()[24];
        int first = (int)(pulse.PeakS * 100) + 5;
        List<PulseEvent> found = PulseRun.Over(light, codes, i => i >= first && i < first + 15);
        PulseEvent told = found.Single(p => Math.Abs(Runs.Seconds(p.Foot, 100) - pulse.FootS) < 0.1);
        Assert.That(told.FoundAt, Is.EqualTo(first + 15));
    }

    [Test]
    public void NextIndex_AfterRestart_IsTheIndexGiven()
    {
        var detector = new PulseDetector();
        Assert.That(detector.Start(256, 1), Is.True);
        int taken = detector.Take(new int[301], out _);
        Assert.That((taken, detector.NextIndex), Is.EqualTo((301, 301L)));
        detector.Restart(310);
        Assert.That(detector.NextIndex, Is.EqualTo(310));
        detector.Restart(316);
        Assert.That(detector.NextIndex, Is.EqualTo(316));
        detector.Take(new int[1], out _);
        Assert.That(detector.NextIndex, Is.EqualTo(317));
        detector.Restart(100_000);
        Assert.That(detector.NextIndex, Is.EqualTo(100_000));
    }
}
