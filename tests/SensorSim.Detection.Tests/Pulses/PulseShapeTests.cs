// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PulseShapeTests
{
    // Rise times of 120 ms down to 45 ms: a fit of one length reads the foot of the steepest several milliseconds early.
    [TestCase(0.24, 1.1)]
    [TestCase(0.18, 0.83)]
    [TestCase(0.12, 0.5)]
    [TestCase(0.08, 0.4)]
    [TestCase(0.065, 0.34)]
    public void Foot_AnyRiseTime_IsWithinTwoMilliseconds(double peakS, double beatS)
    {
        LogNormalPulse light = new LogNormalPulse { PeakS = peakS }.AddTrain(0.5137, 40, beatS * 1.0007);
        List<PulseEvent> found = PulseRun.Over(light, light.Make(40, 1));
        Runs.Score foot = PulseRun.Feet(light, found, 8, 39);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(foot.BiasMs), Is.LessThan(2));
        Assert.That(foot.SdMs, Is.LessThan(0.8));
        Runs.Score peak = Runs.Compare(light.Truth().Select(t => t.PeakS), found.Select(p => Runs.Seconds(p.SystolicPeak, 100)), 8, 39);
        Assert.That(Math.Abs(peak.BiasMs), Is.LessThan(2.5));
    }

    [TestCase(36, 2.5, 3)]
    [TestCase(30, 3, 5)]
    public void Foot_WhiteNoise_KeepsBiasAndSpread(double snrDb, double biasMs, double sdMs)
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = snrDb }.AddTrain(0.5137, 300, 0.8307);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(300, 5021)), 8, 299);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(foot.BiasMs), Is.LessThan(biasMs));
        Assert.That(foot.SdMs, Is.LessThan(sdMs));
    }

    [TestCase(50)]
    [TestCase(100)]
    [TestCase(256)]
    [TestCase(400)]
    public void SecondDerivativeFoot_48Db_StaysWithinItsConstant(int rateHz)
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 48, RateHz = rateHz }.AddTrain(0.5137, 120, 0.8307);
        List<PulseEvent> found = PulseRun.Over(light, light.Make(120, 5022));
        Runs.Score curved = Runs.Compare(
            light.Truth().Select(t => t.CurvedS), found.Select(p => Runs.Seconds(p.SecondDerivativeFoot, rateHz)), 8, 119);
        Assert.That(curved.Missed, Is.Zero);
        Assert.That(curved.SdMs, Is.LessThan(3));
        Assert.That(curved.BiasMs, Is.InRange(-6, 2));
    }

    [TestCase(0.33)]
    [TestCase(0.2)]
    public void Take_WeakBeatsAmongOthers_AreFound(double height)
    {
        var light = new LogNormalPulse { SnrDb = 42 };
        double t = 0.5137;
        for (int beat = 0; t < 80; beat++)
        {
            // Every fifth comes after two thirds of an interval and is weak; the one after it comes late.
            bool isWeak = beat % 5 == 4;
            light.Add(t, isWeak ? height : 1);
            t += beat % 5 == 3 ? 0.6 : isWeak ? 1.1 : 0.85;
        }

        List<PulseEvent> found = PulseRun.Over(light, light.Make(80, 5023));
        Runs.Score foot = PulseRun.Feet(light, found, 8, 79);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    [TestCase(0.3, 0.83)]
    [TestCase(0.45, 1)]
    [TestCase(0.45, 1.4)]
    public void Take_LargeDiastolicWave_IsNoPulse(double share, double beatS)
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 36, DiastolicShare = share }.AddTrain(0.5137, 60, beatS);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(60, 5024)), 8, 59);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Foot_BreathingBaselineOf30Percent_MovesItLittle()
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 60, BreathingShare = 0.3 }.AddTrain(0.5137, 120, 0.8307);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(120, 5025)), 8, 119);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(foot.SdMs, Is.LessThan(3));
    }

    [Test]
    public void State_IsSmall() => Assert.That(Unsafe.SizeOf<PulseDetector>(), Is.LessThanOrEqualTo(2048));

    // Full-scale noise, gaps and steps in any order: nothing throws, blocks make no difference, places lie in the past.
    [Test]
    public void Take_AnythingAtFullScale_Survives([Range(5030, 5041)] int seed)
    {
        var random = new Random(seed);
        int[] rates = [25, 50, 100, 199, 200, 499];
        var light = new LogNormalPulse { RateHz = rates[seed % rates.Length], Polarity = seed % 2 == 0 ? 1 : -1 };
        int scale = 1 << (4 + (seed % 20));
        var codes = new int[20 * light.RateHz];
        int held = 0;
        for (int i = 0; i < codes.Length; i++)
        {
            held = random.Next(9) == 0 ? random.Next(-scale, scale) : held;
            codes[i] = held;
        }

        bool[] missing = [.. codes.Select(_ => random.Next(60) == 0)];
        for (int i = 1; i < missing.Length; i++)
        {
            missing[i] |= missing[i - 1] && random.Next(12) != 0;
        }

        int[] steps = [.. Enumerable.Range(0, codes.Length).Where(_ => random.Next(150) == 0)];
        List<PulseEvent> whole = PulseRun.Over(light, codes, i => missing[i], steps);
        Assert.That(PulseRun.Over(light, codes, i => missing[i], steps, 13), Is.EqualTo(whole));
        Assert.That(whole.Select(p => p.FoundAt - p.SystolicPeak.Sample), Is.All.GreaterThanOrEqualTo(0));
        Assert.That(whole.Select(p => p.Steepest.In256 - p.Foot.In256), Is.All.GreaterThanOrEqualTo(0));
    }
}
