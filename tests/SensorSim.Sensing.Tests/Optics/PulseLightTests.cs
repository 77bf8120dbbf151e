// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Light through a steady pulse: perfusion index, ratio of ratios, direction.</summary>
public sealed class PulseLightTests
{
    // Perfusion index: height of the pulse over the light that it rides on, in per cent (Lima, Crit Care Med 30:1210, 2002).
    [Test]
    public void PerfusionIndex_OfTheInfraredCodes_IsAsStated(
        [Values(0.02, 0.1, 0.5, 1, 2, 5, 10, 20)] double percent, [Values(40, 65, 150)] double bpm)
    {
        double[] light = Light(percent, 0.5, bpm, ChannelName.Infrared);
        double actual = 100 * (light.Max() - light.Min()) / (0.5 * (light.Max() + light.Min()));
        Assert.That(actual, Is.EqualTo(percent).Within(1).Percent, "over the middle of brightest and darkest");

        // A thousandth of the pulse, beside the rounding of the codes.
        Assert.That(light.Max(), Is.EqualTo(2000).Within((2000 * percent * 1e-5) + 0.001), "brightest is the stated level");
    }

    // The pulse spends more time near its foot than near its peak, so the mean light lies above the middle: at most half the pulse height,
    // p/2 of the light, and in measure a third of that. At small perfusion it makes no difference.
    [TestCase(0.02, 0.1)]
    [TestCase(2, 0.5)]
    [TestCase(5, 1)]
    [TestCase(20, 4)]
    public void PerfusionIndex_OverTheMeanLight_DiffersByTheShapeOnly(double percent, double tolerancePercent)
    {
        double[] light = Light(percent, 0.5, 60, ChannelName.Infrared);
        double actual = 100 * (light.Max() - light.Min()) / light.Average();
        Assert.That(actual, Is.EqualTo(percent).Within(tolerancePercent).Percent);
    }

    // Ratio of ratios by logarithms: ln(max/min) of red over ln(max/min) of infrared (Webster, Design of Pulse Oximeters, 1997).
    [Test]
    public void RatioOfRatios_FromBrightestAndDarkest_IsAsStated([Values(0.2, 0.5, 0.8, 1, 1.7, 3)] double ratio, [Values(0.5, 5, 20)] double percent)
    {
        double[] red = Light(percent, ratio, 65, ChannelName.Red);
        double[] infrared = Light(percent, ratio, 65, ChannelName.Infrared);
        double actual = Math.Log(red.Max() / red.Min()) / Math.Log(infrared.Max() / infrared.Min());
        Assert.That(actual, Is.EqualTo(ratio).Within(0.1).Percent);
    }

    // Light falls when the vessel fills (Beer-Lambert; textbook): brightest at the foot, darkest at the systolic peak.
    [Test]
    public void Light_AtTheFoot_IsALocalMaximumAndFallsToThePeak([Values(ChannelName.Red, ChannelName.Infrared)] ChannelName name)
    {
        Recording recording = Recording.Of(Values(2, 0.5, 65), 30);
        double[] light = recording.Physical(name);
        double[] feet = recording.TruthSeconds(name, MarkKind.PulseFootMinimum);
        double[] peaks = recording.TruthSeconds(name, MarkKind.SystolicPeak);
        Assert.That(feet, Has.Length.GreaterThan(30));
        foreach (double foot in feet.Where(f => f > 0.5 && f < 29))
        {
            double peak = peaks.First(p => p > foot);
            int a = (int)Math.Round(foot * 1000);
            int b = (int)Math.Round(peak * 1000);
            int brightest = Enumerable.Range(a - 60, 120).MaxBy(i => light[i]);
            int darkest = Enumerable.Range(a, b - a + 60).MinBy(i => light[i]);
            Assert.That(brightest, Is.EqualTo(a).Within(2), $"foot at {foot} s");
            Assert.That(darkest, Is.EqualTo(b).Within(2), $"peak at {peak} s");
            Assert.That(light[b], Is.LessThan(light[(a + b) / 2]).And.LessThan(light[a]));
        }
    }

    private static KeyValues Values(double percent, double ratio, double bpm) => Settings.Steady()
        .Set(OpticsKeys.RateHz, 1000).Set(OpticsKeys.SlotSpacingUs, 250)
        .Set(PulseKeys.PerfusionIndexPercent, percent).Set(PulseKeys.RatioOfRatios, ratio)
        .Set(HeartKeys.RateBpm, bpm);

    // Whole beats only: 24 s hold whole numbers of beats at 40, 60, 65 and 150 bpm.
    private static double[] Light(double percent, double ratio, double bpm, ChannelName name) =>
        Recording.Of(Values(percent, ratio, bpm), 28).Physical(name)[4000..28000];
}
