// SPDX-License-Identifier: MIT
using SensorSim.Detection.Tests.Twins.Models;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>What the study of word lengths rests on, and its main findings on short records.</summary>
[TestFixture]
public sealed class WordLengthTests
{
    // Four bits over ±8 × 2: steps of 2, from −16 to 14.
    [TestCase(3.1, 4)]
    [TestCase(2.9, 2)]
    [TestCase(-5.2, -6)]
    [TestCase(99, 14)]
    [TestCase(-99, -16)]
    public void State_FourBits_RoundsAndClips(double value, double expected) =>
        Assert.That(new TwinWords { StateBits = 4, FullScale = 8 }.State(value, 2), Is.EqualTo(expected));

    [Test]
    public void Coefficient_SixteenBits_IsThatOfTheStage()
    {
        // Q2.14: steps of 2^-14.
        Assert.That(new TwinWords { CoefficientBits = 16 }.Coefficient(17 / 35.0) * 16384, Is.EqualTo(Math.Round(17 / 35.0 * 16384)).Within(1e-9));
        Assert.That(new TwinWords { CoefficientBits = 4 }.Coefficient(0.4), Is.EqualTo(0.5));
        Assert.That(default(TwinWords).Coefficient(0.4), Is.EqualTo(0.4));
    }

    [Test]
    public void Score_MissedExtraAndErrors_AreCounted()
    {
        TwinScore score = TwinScore.Of([1, 2, 3, 4, 99], [1.01, 2.03, 2.04, 4.2, 98.9, 50], 0, 90);
        Assert.That((score.Matched, score.Missed, score.Extra), Is.EqualTo((2, 2, 3)));
        Assert.That(score.BiasMs, Is.EqualTo(20).Within(1e-9));
        Assert.That(score.SdMs, Is.EqualTo(10).Within(1e-9));
        Assert.That((score.SensitivityPercent, score.PredictivityPercent), Is.EqualTo((50.0, 40.0)));
    }

    // Pulses of 1 % at half of the range: 18-bit words are as good as doubles, 12-bit words are several times worse.
    [Test]
    public void Feet_StateBits_EighteenAreEnoughTwelveAreNot()
    {
        double exact = FeetSdMs(default);
        Assert.That(exact, Is.InRange(0.2, 2.5));
        Assert.That(FeetSdMs(new TwinWords { StateBits = 18, FullScale = 1 << 24 }), Is.EqualTo(exact).Within(5).Percent);
        Assert.That(FeetSdMs(new TwinWords { StateBits = 12, FullScale = 1 << 24 }), Is.GreaterThan(2 * exact));
    }

    [Test]
    public void Feet_WeightBits_ThirteenAreEnoughSevenAreNot()
    {
        double exact = FeetBiasMs(default);
        Assert.That(FeetBiasMs(new TwinWords { CoefficientBits = 13 }), Is.EqualTo(exact).Within(0.3));

        // Ten times what thirteen bits may cost.
        Assert.That(Math.Abs(FeetBiasMs(new TwinWords { CoefficientBits = 7 }) - exact), Is.GreaterThan(3));
    }

    private static double FeetSdMs(in TwinWords words) => Feet(words).SdMs;

    private static double FeetBiasMs(in TwinWords words) => Feet(words).BiasMs;

    private static TwinScore Feet(in TwinWords words)
    {
        const double DurationS = 90;
        var light = new SyntheticPulse { BeatS = 0.837, AmplitudeCodes = 83_886, SnrDb = 36 };
        double[] codes = [.. light.Make(DurationS, 5101).Select(c => (double)c)];
        double[] truth = [.. Enumerable.Range(0, 120).Select(k => light.OffsetS + ((k + SyntheticPulse.FootFraction) * light.BeatS)).Where(t => t < DurationS)];
        return TwinScore.Of(truth, PulseTwin.Feet(codes, 100, 1, words), 10, DurationS - 1);
    }
}
