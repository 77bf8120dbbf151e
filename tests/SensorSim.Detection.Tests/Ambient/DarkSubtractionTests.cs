// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Ambient;

/// <summary>What is left of the room after the dark slot is taken off.</summary>
[TestFixture]
public sealed class DarkSubtractionTests
{
    private const double Amplitude = 100_000;

    // One dark sample τ away leaves 2 |sin(π f τ)| of the flicker, trigonometry. 100 Hz flicker at 99.97 Hz of sampling folds to 0.03 Hz.
    [TestCase(100, 20e-6, 0.01257)]
    [TestCase(120, 20e-6, 0.01508)]
    [TestCase(100, 50e-6, 0.03141)]
    [TestCase(120, 50e-6, 0.03770)]
    [TestCase(100, 100e-6, 0.06282)]
    [TestCase(120, 100e-6, 0.07538)]
    [TestCase(100, 500e-6, 0.31287)]
    [TestCase(120, 500e-6, 0.37476)]
    public void Next_FlickerWithTheDarkJustBefore_LeavesTheClosedForm(double flickerHz, double tauS, double expected)
    {
        // Sampled near the flicker, so that both slots see it slowly: what is left then is the phase between them alone.
        double rateHz = flickerHz * 0.9997;
        Assert.That(Residual(flickerHz, rateHz, 100, 100, 0, tauS), Is.EqualTo(expected).Within(0.01 * expected));
    }

    // The mean of the dark before and after, ±τ, leaves 2 sin²(π f τ), trigonometry.
    [TestCase(100, 50e-6, 10_000, 0.000493)]
    [TestCase(120, 50e-6, 10_000, 0.000711)]
    [TestCase(100, 100e-6, 5_000, 0.001973)]
    [TestCase(120, 100e-6, 5_000, 0.002841)]
    [TestCase(100, 500e-6, 1_000, 0.04894)]
    [TestCase(120, 500e-6, 1_000, 0.07022)]
    public void Next_LightMidwayBetweenTwoDarkSlots_LeavesTheClosedForm(double flickerHz, double tauS, int rateHz, double expected)
    {
        // Place 128: the dark of the same tick lies half an interval after the light. Codes are rounded: 0.5 of 100,000 each.
        Assert.That(Residual(flickerHz, rateHz, rateHz, rateHz, 128, -tauS), Is.EqualTo(expected).Within((0.01 * expected) + 2e-5));
    }

    [TestCase(16)]
    [TestCase(64)]
    [TestCase(127)]
    [TestCase(200)]
    public void Next_RampOfTheRoom_LeavesNothing(int shift256)
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(100, 100, shift256, 2000, 1000), Is.True);
        NoProbe probe = default;
        int place = shift256 < 128 ? shift256 : shift256 - 256;
        for (int k = 0; k < 500; k++)
        {
            stage.Dark(1000 + (256 * k));
            int light = stage.Next(2000 + 50_000 + (256 * k) + place, ref probe);
            Assert.That(light, Is.EqualTo(50_000).Within(k < 2 ? 256 : 1), $"sample {k}");
        }
    }

    [Test]
    public void Next_DarkSlotFourTimesSlower_GoesOnAlongTheLine()
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(100, 25, 0, 0, 0), Is.True);
        NoProbe probe = default;
        for (int k = 0; k < 400; k++)
        {
            if (k % 4 == 0)
            {
                stage.Dark(64 * k);
            }

            int light = stage.Next(7000 + (64 * k), ref probe);
            Assert.That(light, Is.EqualTo(7000).Within(k < 8 ? 256 : 1), $"sample {k}");
        }
    }

    [Test]
    public void Next_NoisyDarkOfASteadyRoom_AddsLittleNoise()
    {
        var random = new Random(5001);
        var stage = new DarkSubtraction();
        stage.Start(100, 100, 13, 0, 0);
        NoProbe probe = default;
        double power = 0;
        int count = 0;
        for (int k = 0; k < 6000; k++)
        {
            stage.Dark(20_000 + (int)Math.Round(50 * SyntheticEcg.Normal(random)));
            int light = stage.Next(120_000, ref probe);
            if (k >= 200)
            {
                power += Math.Pow(light - 100_000, 2);
                count++;
            }
        }

        // A mean with 1/8 new keeps 1/15 of the power, and the sample itself would keep 1 (with the line 1.11).
        double rms = Math.Sqrt(power / count);
        Assert.That(stage.IsSmoothing, Is.True);
        Assert.That(rms, Is.EqualTo(50 / Math.Sqrt(15)).Within(1.0));
    }

    [Test]
    public void Next_FlickerThatFoldsTo5Hz_IsFollowedSampleBySampleWithoutChatter()
    {
        // 120 Hz at 125 Hz: 5 Hz. Noise of 50 codes, flicker of 2000.
        var random = new Random(5002);
        var stage = new DarkSubtraction();
        stage.Start(125, 125, 0, 0, 0);
        NoProbe probe = default;
        double power = 0;
        int count = 0;
        for (int k = 0; k < 6000; k++)
        {
            double flicker = 2000 * Math.Sin(2 * Math.PI * 120 * k / 125);
            stage.Dark((int)Math.Round(20_000 + flicker + (50 * SyntheticEcg.Normal(random))));
            int light = stage.Next((int)Math.Round(120_000 + flicker), ref probe);
            if (k >= 200)
            {
                Assert.That(stage.IsSmoothing, Is.False, $"sample {k}");
                power += Math.Pow(light - 100_000, 2);
                count++;
            }
        }

        Assert.That(Math.Sqrt(power / count), Is.EqualTo(50).Within(2));
    }

    [Test]
    public void Next_WhiteNoiseForTenMinutes_ChoiceStays()
    {
        var random = new Random(5003);
        var stage = new DarkSubtraction();
        stage.Start(100, 100, 13, 0, 0);
        int changes = 0;
        bool before = false;
        for (int k = 0; k < 60_000; k++)
        {
            stage.Dark(20_000 + (int)Math.Round(30 * SyntheticEcg.Normal(random)));
            changes += k > 200 && stage.IsSmoothing != before ? 1 : 0;
            before = stage.IsSmoothing;
        }

        Assert.That(before, Is.True);
        Assert.That(changes, Is.LessThan(10));
    }

    [TestCase(false)]
    [TestCase(true)]
    public void Next_StepIntoTheSun_IsGoneAfterTwoSamples(bool down)
    {
        var random = new Random(5004);
        var stage = new DarkSubtraction();
        stage.Start(100, 100, 13, 0, 0);
        NoProbe probe = default;
        for (int k = 0; k < 1000; k++)
        {
            int room = (k >= 500) == down ? 20_000 : 150_000;
            stage.Dark(room + (int)Math.Round(20 * SyntheticEcg.Normal(random)));
            int light = stage.Next(60_000 + room, ref probe);
            if (k > 100)
            {
                Assert.That(light, Is.EqualTo(60_000).Within(130), $"sample {k}");
            }
        }

        Assert.That(stage.AmbientCodes, Is.EqualTo(down ? 20_000 : 150_000).Within(300));
    }

    [Test]
    public void Measures_SwingingRoom_AreItsLevelAndMeanDistance()
    {
        var stage = new DarkSubtraction();
        stage.Start(100, 100, 0, 500, 400);
        for (int k = 0; k < 3000; k++)
        {
            stage.Dark(400 + (int)Math.Round(30_000 + (1000 * Math.Sin(2 * Math.PI * 5 * k / 100.0))));
        }

        // Mean magnitude of a sine: 2/π.
        Assert.That(stage.AmbientCodes, Is.EqualTo(30_000).Within(60));
        Assert.That(stage.SwingCodes, Is.EqualTo(1000 * 2 / Math.PI).Within(30));
    }

    [Test]
    public void Dark_FullScaleSwing_DoesNotWrap()
    {
        var stage = new DarkSubtraction();
        stage.Start(100, 100, 127, 0, 0);
        NoProbe probe = default;
        for (int k = 0; k < 2000; k++)
        {
            int room = k % 7 < 3 ? 0 : 16_777_215;
            stage.Dark(room);
            int light = stage.Next(room, ref probe);
            Assert.That(Math.Abs(light), Is.LessThanOrEqualTo(16_777_215), $"sample {k}");
            Assert.That(stage.SwingCodes, Is.InRange(0, 16_777_216));
            Assert.That(stage.AmbientCodes, Is.InRange(0, 16_777_216));
        }
    }

    [TestCase(100, 30, 0)]
    [TestCase(25, 100, 0)]
    [TestCase(100, 100, 256)]
    [TestCase(100, 100, -1)]
    [TestCase(100, 0, 0)]
    public void Start_WrongArguments_SaysNo(int light, int dark, int shift)
    {
        Assert.That(new DarkSubtraction().Start(light, dark, shift, 0, 0), Is.False);
    }

    // Amplitude that is left, over that of the flicker, for a slot that sees the room tau after (before, if negative) the dark one.
    private static double Residual(double flickerHz, double rateHz, int lightRate, int darkRate, int shift256, double tauS)
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(lightRate, darkRate, shift256, 0, 0), Is.True);
        NoProbe probe = default;
        double largest = 0;
        for (int k = 0; k < 8000; k++)
        {
            double t = k / rateHz;
            stage.Dark((int)Math.Round(300_000 + (Amplitude * Math.Sin(2 * Math.PI * flickerHz * t))));
            int light = stage.Next((int)Math.Round(400_000 + (Amplitude * Math.Sin(2 * Math.PI * flickerHz * (t + tauS)))), ref probe);
            largest = k < 500 ? 0 : Math.Max(largest, Math.Abs(light - 100_000));
        }

        return largest / Amplitude;
    }
}
