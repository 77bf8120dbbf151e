// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PulseLevelTests
{
    private static LogNormalPulse Train(double untilS = 60) => new LogNormalPulse { SnrDb = 42 }.AddTrain(0.5137, untilS, 0.83);

    // A change of LED current that is told: the light settles with a time constant of 10 ms.
    [TestCase(2.4)]
    [TestCase(6)]
    [TestCase(0.3)]
    [TestCase(0.12)]
    public void Step_SettingsChange_CostsAtMostOneBeat(double ratio)
    {
        for (int at = 3000; at < 3083; at += 9)
        {
            LogNormalPulse light = Train();
            double changeS = at / 100.0;
            int[] codes = light.Make(60, at, t => t < changeS ? 1 : ratio + ((1 - ratio) * Math.Exp(-(t - changeS) / 0.01)));
            List<PulseEvent> found = PulseRun.Over(light, codes, steps: [at]);
            Runs.Score foot = PulseRun.Feet(light, found, 8, 59);
            Assert.That(foot.Extra, Is.Zero, $"step at {at}");
            Assert.That(foot.Missed, Is.LessThanOrEqualTo(1), $"step at {at}");
            Assert.That(foot.SdMs, Is.LessThan(1.5), $"step at {at}");
            Assert.That(found[^1].AmplitudeCodes, Is.EqualTo(2000 * ratio * light.Truth()[60].Height).Within(4).Percent);
        }
    }

    [TestCase(40_000)]
    [TestCase(-40_000)]
    [TestCase(9_000)]
    [TestCase(-3_000)]
    public void Take_LevelJumpsWithoutNotice_CostsAtMostTwoBeats(int jump)
    {
        for (int at = 3000; at < 3083; at += 9)
        {
            LogNormalPulse light = Train();
            List<PulseEvent> found = PulseRun.Over(light, light.Make(60, at, offset: t => t < at / 100.0 ? 0 : jump));
            Runs.Score foot = PulseRun.Feet(light, found, 8, 59);
            Assert.That(foot.Missed, Is.LessThanOrEqualTo(2), $"step at {at}");
            Assert.That(foot.Extra, Is.LessThanOrEqualTo(1), $"step at {at}");
        }
    }

    [TestCase(9, 2)]
    [TestCase(4, 1)]
    [TestCase(0.25, 1)]
    [TestCase(0.12, 3)]
    public void Take_PulsesOfAnotherSize_AreFollowed(double size, int mostMissed)
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 48 }.AddTrain(0.5137, 30, 0.83).AddTrain(30.4, 60, 0.83, size);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(60, 5011)), 8, 59);
        Assert.That(foot.Missed, Is.LessThanOrEqualTo(mostMissed));
        Assert.That(foot.Extra, Is.Zero);
    }

    // Nothing but noise for half a minute, then pulses: the noise must not be learned, nor anything that keeps pulses out.
    [TestCase(36)]
    [TestCase(24)]
    public void Take_NoiseOnlyBefore_FindsPulsesWithinThreeSeconds(double snrDb)
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = snrDb }.AddTrain(30.3, 60, 0.83);
        List<PulseEvent> found = PulseRun.Over(light, light.Make(60, 5012));
        Assert.That(found.Count(p => p.Foot.Sample < 3000), Is.Zero);
        Runs.Score foot = PulseRun.Feet(light, found, 33.5, 59);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    // A pause of the heart of ten seconds: no pulses in it, the first one after it is told.
    [Test]
    public void Take_LongPause_HasNoPulsesAndCostsNone()
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 36 }.AddTrain(0.5137, 25, 0.83).AddTrain(35.1, 60, 0.83);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(60, 5013)), 8, 59);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    // The level is learned from something five times as flat, as after a lift-off; then pulses come with a large diastolic wave.
    [Test]
    public void Take_LevelLearnedFarTooLow_IsMended()
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 60, DiastolicShare = 0.45 }
            .AddTrain(0.5137, 12, 0.83, 0.15).AddTrain(12.4, 60, 0.83);
        Runs.Score foot = PulseRun.Feet(light, PulseRun.Over(light, light.Make(60, 5014)), 15, 59);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Levels_NoiseAndSignal_AreInOneFormat()
    {
        LogNormalPulse light = new LogNormalPulse { SnrDb = 24 }.AddTrain(0.5137, 30, 0.83);
        var detector = new PulseDetector();
        PulseRun.Over(ref detector, light, light.Make(30, 5015));

        // Noise: deviation 2000 / (2√2) / 10^(24/20) codes on Σ k x over ±6 samples: times √182. It reads 10 to 20 % low, and scatters.
        double noise = 2000 / (2 * Math.Sqrt(2)) / Math.Pow(10, 24 / 20.0) * Math.Sqrt(182);
        Assert.That(detector.NoiseLevel, Is.InRange(0.6 * noise, 1.1 * noise));
        Assert.That(detector.IsLearned, Is.True);

        // Signal: the same sum over the clean upstroke.
        double s = Enumerable.Range(0, 830).Max(i => Enumerable.Range(-6, 13).Sum(k => 2000 * k * light.Filling(15 + (i / 1000.0) + (k / 100.0))));
        Assert.That(detector.SignalLevel, Is.EqualTo(s).Within(6).Percent);
        Assert.That(detector.SincePulseSamples, Is.InRange(10, 110));
    }

    [Test]
    public void Event_LevelCodes_IsTheLightAtTheMinimumFromTheZeroCode([Values(1, -1)] int polarity, [Values(0, 2621, -700)] int zeroCode, [Values(100, 250)] int rateHz)
    {
        LogNormalPulse light = new LogNormalPulse { Polarity = polarity, ZeroCode = zeroCode, RateHz = rateHz }.AddTrain(0.5137, 20, 0.83);
        List<PulseEvent> found = PulseRun.Over(light, light.Make(20, 5016));
        LogNormalPulse.Landmarks pulse = light.Truth()[12];
        PulseEvent told = found.Single(p => Math.Abs(Runs.Seconds(p.Foot, rateHz) - pulse.FootS) < 0.1);
        Assert.That(told.LevelCodes, Is.EqualTo(300_000 - (2000 * pulse.Low)).Within(20));
        Assert.That(told.AmplitudeCodes, Is.EqualTo(2000 * pulse.Height).Within(1.5).Percent);
    }
}
