// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PulseDetectorTests
{
    [TestCase(50)]
    [TestCase(64)]
    [TestCase(100)]
    [TestCase(125)]
    [TestCase(200)]
    [TestCase(250)]
    [TestCase(256)]
    [TestCase(400)]
    [TestCase(500)]
    public void Take_CleanPulse_FindsTheFootOfTheFormula(int rateHz)
    {
        // 0.94 s beats so that sampling instants fall everywhere on the pulse.
        var light = new SyntheticPulse { RateHz = rateHz, BeatS = 0.94 };
        List<PulseEvent> found = Runs.Pulses(light.Make(60, 1), rateHz);
        Runs.Score foot = Compare(light, found, p => p.Foot, SyntheticPulse.FootFraction, 60);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(foot.BiasMs), Is.LessThan(1));
        Assert.That(foot.SdMs, Is.LessThan(0.5));

        Runs.Score steepest = Compare(light, found, p => p.Steepest, SyntheticPulse.SteepestFraction, 60);
        Assert.That(Math.Abs(steepest.BiasMs), Is.LessThan(1.5));
        Assert.That(Compare(light, found, p => p.SystolicPeak, SyntheticPulse.PeakFraction, 60).Missed, Is.Zero);
    }

    [TestCase(36, 1.5, 3)]
    [TestCase(30, 2.5, 5)]
    public void Take_WhiteNoise_KeepsBiasAndSpread(double snrDb, double biasMs, double sdMs)
    {
        var light = new SyntheticPulse { SnrDb = snrDb, BeatS = 0.94 };
        Runs.Score foot = Compare(light, Runs.Pulses(light.Make(400, 7), 100), p => p.Foot, SyntheticPulse.FootFraction, 400);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
        Assert.That(Math.Abs(foot.BiasMs), Is.LessThan(biasMs));
        Assert.That(foot.SdMs, Is.LessThan(sdMs));
    }

    [TestCase(1.5)]
    [TestCase(0.6)]
    [TestCase(0.4)]
    public void Take_SlowAndFastPulses_CountsEachOnce(double beatS)
    {
        var light = new SyntheticPulse { BeatS = beatS, SnrDb = 36, BreathingShare = 0.2 };
        Runs.Score foot = Compare(light, Runs.Pulses(light.Make(60, 2), 100), p => p.Foot, SyntheticPulse.FootFraction, 60);
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0, 0)));
    }

    [Test]
    public void Take_OtherPolarity_FindsTheSame()
    {
        int[] codes = new SyntheticPulse().Make(30, 1);
        int[] turned = new SyntheticPulse { Polarity = -1 }.Make(30, 1);
        List<PulseEvent> found = Runs.Pulses(codes, 100);
        Assert.That(found, Has.Count.GreaterThan(25));
        Assert.That(Runs.Pulses(turned, 100, -1), Is.EqualTo(found));
    }

    [Test]
    public void Take_Amplitude_IsTheHeightOfTheFormula()
    {
        List<PulseEvent> found = Runs.Pulses(new SyntheticPulse().Make(30, 1), 100);
        double expected = 2000 * SyntheticPulse.Height;
        Assert.That(found.Skip(1).Select(p => (double)p.AmplitudeCodes), Is.All.EqualTo(expected).Within(1).Percent);
    }

    [Test]
    public void Take_OneBlockOrMany_GivesTheSame([Values(1, 7, 17, 250)] int block)
    {
        int[] codes = new SyntheticPulse { SnrDb = 24, RateHz = 256 }.Make(60, 5);
        List<PulseEvent> whole = Runs.Pulses(codes, 256);
        Assert.That(whole, Is.Not.Empty);
        Assert.That(Runs.Pulses(codes, 256, 1, block), Is.EqualTo(whole));
    }

    [Test]
    public void Take_StepOfTheLight_IsNoPulse()
    {
        var light = new SyntheticPulse();
        int[] codes = light.Make(60, 1);
        // Half-way between two upstrokes, where no refractory time hides it.
        for (int i = 3085; i < codes.Length; i++)
        {
            codes[i] -= 50_000;
        }

        Runs.Score foot = Compare(light, Runs.Pulses(codes, 100), p => p.Foot, SyntheticPulse.FootFraction, 60);
        Assert.That(foot.Extra, Is.Zero);
        Assert.That(foot.Missed, Is.LessThanOrEqualTo(1));
    }

    [TestCase(24, 1)]
    [TestCase(501, 1)]
    [TestCase(100, 0)]
    public void Start_ArgumentOutOfRange_IsRefused(int rateHz, int polarity) =>
        Assert.That(new PulseDetector().Start(rateHz, polarity), Is.False);

    private static Runs.Score Compare(
        SyntheticPulse light, List<PulseEvent> found, Func<PulseEvent, SamplePosition> place, double fraction, double durationS)
    {
        IEnumerable<double> truth = Enumerable.Range(0, (int)(durationS / light.BeatS)).Select(k => light.OffsetS + ((k + fraction) * light.BeatS));
        return Runs.Compare(truth, found.Select(p => Runs.Seconds(place(p), light.RateHz)), 8, durationS - 1);
    }
}
