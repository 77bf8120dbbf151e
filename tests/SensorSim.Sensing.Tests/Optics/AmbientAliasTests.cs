// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Where lines of light fold to and what dark subtraction leaves: against tables worked out by hand from the textbook formulas.</summary>
public sealed class AmbientAliasTests
{
    private static readonly double[] s_rates = [25, 30, 50, 60, 64, 75, 100, 125, 128, 200, 250, 256];

    // |f − round(f/fs) fs| (sampling theorem, textbook), one row for each frequency.
    [TestCase(100.0, new double[] { 0, 10, 0, 20, 28, 25, 0, 25, 28, 100, 100, 100 })]
    [TestCase(100.2, new[] { 0.2, 10.2, 0.2, 19.8, 27.8, 25.2, 0.2, 24.8, 27.8, 99.8, 100.2, 100.2 })]
    [TestCase(99.8, new[] { 0.2, 9.8, 0.2, 20.2, 28.2, 24.8, 0.2, 25.2, 28.2, 99.8, 99.8, 99.8 })]
    [TestCase(120.0, new double[] { 5, 0, 20, 0, 8, 30, 20, 5, 8, 80, 120, 120 })]
    [TestCase(119.9, new[] { 5.1, 0.1, 19.9, 0.1, 8.1, 30.1, 19.9, 5.1, 8.1, 80.1, 119.9, 119.9 })]
    public void FoldedHz_OfFlicker_IsTheTable(double hz, double[] expected) =>
        Assert.That(s_rates.Select(r => AmbientAlias.FoldedHz(hz, r)), Is.EqualTo(expected).Within(1e-9));

    // 2 |sin(π f τ)| and 2 sin²(π f τ) (textbook).
    [TestCase(100, 20, 0.01257, double.NaN)]
    [TestCase(120, 20, 0.01508, double.NaN)]
    [TestCase(100, 50, 0.03141, 0.000493)]
    [TestCase(120, 50, 0.03770, 0.000711)]
    [TestCase(100, 100, 0.06282, 0.001973)]
    [TestCase(120, 100, 0.07538, 0.002841)]
    [TestCase(100, 500, 0.31287, 0.04894)]
    [TestCase(120, 500, 0.37476, 0.07022)]
    public void Left_OfDarkSubtraction_IsTheTable(double hz, double apartUs, double one, double two)
    {
        Assert.That(AmbientAlias.LeftOfDifference(hz, apartUs * 1e-6), Is.EqualTo(one).Within(6e-6));
        if (!double.IsNaN(two))
        {
            Assert.That(AmbientAlias.LeftOfMeanOfTwo(hz, apartUs * 1e-6), Is.EqualTo(two).Within(two * 0.002));
        }
    }

    // sin(x)/x, x = π f T (textbook): a whole period nulls.
    [TestCase(100, 1000, 0.9836)]
    [TestCase(120, 1000, 0.9765)]
    [TestCase(100, 10_000, 0)]
    [TestCase(120, 1e6 / 120, 0)]
    public void Kept_ByIntegration_IsTheTable(double hz, double windowUs, double share) =>
        Assert.That(AmbientAlias.KeptByIntegration(hz, windowUs * 1e-6), Is.EqualTo(share).Within(5e-5));

    // A sample clock 50 ppm fast at 25 Hz moves the alias of 100 Hz from 0 to 100 × 50 ppm = 0.005 Hz (own arithmetic).
    [Test]
    public void Of_FastClock_MovesTheAlias()
    {
        KeyValues values = new KeyValues().Set(MainsKeys.FrequencyHz, 50).Set(OpticsKeys.RateHz, 25);
        Assert.That(AmbientAlias.Of(values)[0].AliasHz, Is.EqualTo(0).Within(1e-9));
        Assert.That(AmbientAlias.Of(values.Set(DeviceKeys.First.ClockPpm, 50))[0].AliasHz, Is.EqualTo(0.005).Within(1e-6));
    }

    // What it says of a scenario is what the samples of that scenario show: frequency, size, and what subtraction leaves.
    [TestCase(AmbientLine.Flicker, 1)]
    [TestCase(AmbientLine.Flicker, 2)]
    [TestCase(AmbientLine.Flicker, 3)]
    [TestCase(AmbientLine.PulseWidthLamp, 1)]
    [TestCase(AmbientLine.PulseWidthLamp, 2)]
    [TestCase(AmbientLine.PulseWidthLamp, 3)]
    public void Of_ARoom_IsWhatTheSamplesShow(string source, int multiple)
    {
        KeyValues values = Settings.Silent().Set(MainsKeys.FrequencyHz, 60.02).Set(OpticsKeys.RateHz, 125).Set(OpticsKeys.GreenNa, 0)
            .Set(OpticsKeys.IntegrationUs, 120).Set(OpticsKeys.SlotSpacingUs, 300)
            .Set(AmbientKeys.LevelNa, source == AmbientLine.Flicker ? 500 : 0).Set(AmbientKeys.LevelLux, source == AmbientLine.Flicker ? 1000 : 0)
            .Set(AmbientKeys.FlickerPercent, 50).Set(AmbientKeys.FlickerSecondPercent, 40).Set(AmbientKeys.FlickerThirdPercent, 20)
            .Set(AmbientKeys.PulseWidthLampNa, source == AmbientLine.Flicker ? 0 : 600).Set(AmbientKeys.PulseWidthDutyPercent, 30);
        AmbientLine line = AmbientAlias.Of(values).Single(l => l.Source == source && l.Multiple == multiple);
        double[] dark = Measure.WithoutMean(Analog.Of(values, 400, ChannelName.Dark));
        double size = Measure.Line(dark, line.AliasHz, 125).Magnitude;
        Assert.That(size, Is.EqualTo(line.AmplitudeNa).Within(0.2).Percent);
        foreach (SlotRemainder left in line.Left)
        {
            double[] residual = Measure.Less(Measure.WithoutMean(Analog.Of(values, 400, left.Slot)), dark);
            Assert.That(Measure.Line(residual, line.AliasHz, 125).Magnitude / size, Is.EqualTo(left.Share).Within(0.004), left.Slot.ToString());
        }

        Assert.That(line.Left.Select(l => l.Slot), Is.EqualTo(new[] { ChannelName.Red, ChannelName.Infrared }));
    }
}
