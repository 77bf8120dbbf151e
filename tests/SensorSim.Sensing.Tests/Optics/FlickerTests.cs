// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Flicker of room light as slots of an integrating front end see it. Check values: own arithmetic from textbook formulas.</summary>
public sealed class FlickerTests
{
    private const double LevelNa = 1000;
    private const double FlickerNa = 200;

    // Folding, textbook: |f − round(f/fs) fs|.
    [TestCase(100.2, 25, 0.2)]
    [TestCase(100.2, 50, 0.2)]
    [TestCase(100.2, 64, 27.8)]
    [TestCase(100.2, 75, 25.2)]
    [TestCase(100.2, 100, 0.2)]
    [TestCase(100.2, 125, 24.8)]
    [TestCase(100.2, 250, 100.2)]
    [TestCase(99.8, 30, 9.8)]
    [TestCase(99.8, 60, 20.2)]
    [TestCase(99.8, 64, 28.2)]
    [TestCase(99.8, 125, 25.2)]
    [TestCase(99.8, 128, 28.2)]
    [TestCase(120.0, 25, 5.0)]
    [TestCase(120.0, 64, 8.0)]
    [TestCase(120.0, 100, 20.0)]
    [TestCase(120.0, 125, 5.0)]
    [TestCase(120.0, 200, 80.0)]
    [TestCase(119.9, 30, 0.1)]
    [TestCase(119.9, 60, 0.1)]
    [TestCase(119.9, 125, 5.1)]
    [TestCase(119.9, 256, 119.9)]
    public void DarkSlot_FlickerAboveHalfTheRate_FoldsToTheAlias(double flickerHz, int rateHz, double aliasHz)
    {
        double[] dark = Record(flickerHz / 2, rateHz).Physical(ChannelName.Dark);
        Assert.That(Measure.PeakHz(dark, rateHz), Is.EqualTo(aliasHz).Within(0.005 + 1e-9));
        Assert.That(Measure.Line(Measure.WithoutMean(dark), aliasHz, rateHz).Magnitude, Is.EqualTo(FlickerNa).Within(0.5).Percent);
    }

    // A whole number of flicker periods to a sample: every sample sees the same light.
    [TestCase(100.0, 25)]
    [TestCase(100.0, 50)]
    [TestCase(100.0, 100)]
    [TestCase(120.0, 30)]
    [TestCase(120.0, 60)]
    public void DarkSlot_FlickerAtAMultipleOfTheRate_IsConstant(double flickerHz, int rateHz)
    {
        int[] dark = Record(flickerHz / 2, rateHz).Codes(ChannelName.Dark);
        Assert.That(dark.Max() - dark.Min(), Is.LessThanOrEqualTo(1));
    }

    // The default mains, 50.03 Hz, beats at 0.06 Hz in 100 Hz slots: slow as a drifting baseline.
    [Test]
    public void DarkSlot_DefaultMainsAndRate_BeatsAt60Millihertz()
    {
        double[] dark = Record(MainsKeys.FrequencyHz.Default, 100).Physical(ChannelName.Dark);
        Assert.That(Measure.PeakHz(dark, 100), Is.EqualTo(0.06).Within(0.005));
    }

    // Percent flicker = 100 (max − min) / (max + min) (Wilkins, Veitch, Lehman, IEEE PAR1789 update, 2010).
    [TestCase(5)]
    [TestCase(20)]
    [TestCase(100)]
    public void FlickerPercent_ByBrightestAndDarkest_IsAsStated(double percent)
    {
        KeyValues values = Values(50.03, 250, 5, 250).Set(AmbientKeys.FlickerPercent, percent);
        double[] dark = Recording.Of(values, 200).Physical(ChannelName.Dark);
        Assert.That(100 * (dark.Max() - dark.Min()) / (dark.Max() + dark.Min()), Is.EqualTo(percent).Within(0.02).Percent);
        Assert.That(dark.Average(), Is.EqualTo(LevelNa).Within(0.05).Percent);
    }

    // Dark slot τ after a lit one: of the flicker 2 |sin(π f τ)| is left (textbook arithmetic). Red is two spacings away, infrared one.
    [TestCase(ChannelName.Infrared, 100, 20, 0.01257)]
    [TestCase(ChannelName.Infrared, 100, 50, 0.03141)]
    [TestCase(ChannelName.Infrared, 100, 100, 0.06282)]
    [TestCase(ChannelName.Infrared, 100, 500, 0.31287)]
    [TestCase(ChannelName.Infrared, 120, 20, 0.01508)]
    [TestCase(ChannelName.Infrared, 120, 50, 0.03770)]
    [TestCase(ChannelName.Infrared, 120, 100, 0.07538)]
    [TestCase(ChannelName.Infrared, 120, 500, 0.37476)]
    [TestCase(ChannelName.Red, 100, 50, 0.06282)]
    [TestCase(ChannelName.Red, 120, 250, 0.37476)]
    public void DarkSubtraction_SlotsApart_LeavesTheTextbookShare(ChannelName lit, double flickerHz, double spacingUs, double share)
    {
        Recording recording = Recording.Of(Values(flickerHz / 2, 500, 10, spacingUs), 100);
        double[] dark = recording.Physical(ChannelName.Dark);
        double[] residual = Measure.Less(recording.Physical(lit), dark);
        double actual = Measure.Line(residual, flickerHz, 500).Magnitude / Measure.Line(Measure.WithoutMean(dark), flickerHz, 500).Magnitude;
        Assert.That(actual, Is.EqualTo(share).Within(0.00002));
    }

    // Averaging over a window leaves sin(x)/x, x = π f T (textbook): 1 ms keeps 0.9836 of 100 Hz and 0.9765 of 120 Hz.
    [TestCase(100, 1000, 0.9836)]
    [TestCase(120, 1000, 0.9765)]
    [TestCase(100, 100, 0.99984)]
    public void DarkSlot_LongIntegration_AveragesTheFlicker(double flickerHz, double windowUs, double share)
    {
        double[] dark = Recording.Of(Values(flickerHz / 2, 250, windowUs, 1000), 100).Physical(ChannelName.Dark);
        Assert.That(Measure.Line(Measure.WithoutMean(dark), flickerHz, 250).Magnitude / FlickerNa, Is.EqualTo(share).Within(0.00005));
    }

    // The same supply drives both: flicker runs at twice the phase of the interference, mean and wander included.
    [Test]
    public void Flicker_AndEcgInterference_HaveTheSameSupply()
    {
        KeyValues values = Values(50.03, 250, 10, 10).Set(MainsKeys.WanderHz, 0.2).Set(Sensing.Electrodes.EcgAmplifierKeys.MainsUvPp, 2000)
            .Set(Sensing.Electrodes.EcgAmplifierKeys.MainsSecondPercent, 0).Set(Sensing.Electrodes.EcgAmplifierKeys.MainsThirdPercent, 0);
        Recording recording = Recording.Of(values, 300);
        double[] ecg = recording.Physical(ChannelName.Ecg);
        double[] light = recording.Physical(ChannelName.Red);

        // sin 2φ = 2 sin φ cos φ, so (sin 2φ)² = 4 sin²φ (1 − sin²φ), whatever φ does; red is the slot without offset.
        for (int i = 0; i < ecg.Length; i++)
        {
            double square = ecg[i] * ecg[i];
            Assert.That(Math.Pow((light[i] - LevelNa) / FlickerNa, 2), Is.EqualTo(4 * square * (1 - square)).Within(2e-3), $"sample {i}");
        }
    }

    private static Recording Record(double mainsHz, int rateHz) => Recording.Of(Values(mainsHz, rateHz, 10, 250), 100);

    private static KeyValues Values(double mainsHz, double rateHz, double windowUs, double spacingUs) => Settings.Silent()
        .Set(MainsKeys.FrequencyHz, mainsHz)
        .Set(OpticsKeys.RateHz, rateHz)
        .Set(OpticsKeys.IntegrationUs, windowUs)
        .Set(OpticsKeys.SlotSpacingUs, spacingUs)
        .Set(AmbientKeys.LevelNa, LevelNa)
        .Set(AmbientKeys.FlickerPercent, 100 * FlickerNa / LevelNa);
}
