// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Levels;

/// <summary>
/// Optical signal-to-noise ratio as this project defines it: 20 log10((A / 2√2) / rms), A = mean foot-to-peak light, dark subtracted,
/// 5 % trimmed at either end. A is read from clean codes at the true feet and peaks, the noise from the difference of two runs.
/// </summary>
public sealed class OpticalRatioTests
{
    private const double Rate = 500;

    [Test]
    public void WhiteNoiseSnrDb_MeasuredFromCodesAndTruth_IsAsStated(
        [Values(-10.0, 6.0, 24.0, 40.0)] double decibel, [Values(ChannelName.Red, ChannelName.Infrared)] ChannelName name, [Values] bool isSteady)
    {
        KeyValues values = (isSteady ? Settings.Steady() : Settings.Fine())
            .Set(OpticsKeys.RateHz, Rate).Set(PulseKeys.PerfusionIndexPercent, 3).Set(PulseKeys.RatioOfRatios, 0.8)
            .Set(AmbientKeys.LevelNa, 500).Set(AmbientKeys.FlickerPercent, 0);
        Recording clean = Recording.Of(values, 120);
        Recording noisy = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, decibel), 120);
        double[] heights = Heights(clean, name);
        double mean = TrimmedMean(heights);
        double[] noise = Measure.Less(noisy.Physical(name), clean.Physical(name));
        double actual = 20 * Math.Log10(mean / (2 * Math.Sqrt(2)) / Measure.Rms(noise));

        // Relative standard errors: 1/√(2n) of the noise; spread over √beats of the pulse heights (textbook). 8.686 dB to one neper.
        double ofHeights = Math.Sqrt(heights.Average(h => Math.Pow((h / heights.Average()) - 1, 2)) / heights.Length);
        double ofNoise = 1 / Math.Sqrt(2.0 * noise.Length);
        double tolerance = 4 * 8.686 * Math.Sqrt((ofHeights * ofHeights) + (ofNoise * ofNoise));
        Assert.That(tolerance, Is.LessThan(0.3));
        Assert.That(actual, Is.EqualTo(decibel).Within(tolerance));
    }

    [Test]
    public void WhiteNoise_ByCurrentAndByRatio_AddInPower()
    {
        KeyValues clean = Settings.Steady();
        double ratioNa = Rms(clean, clean.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 10));
        double bothNa = Rms(clean, clean.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 10).Set(OpticsKeys.WhiteNoiseNaRms, 4));

        // Independent noises add in power (textbook). One draw feeds both, so the ratio has no sampling error beyond that of one rms.
        Assert.That(bothNa, Is.EqualTo(Math.Sqrt((ratioNa * ratioNa) + 16)).Within(1).Percent);
    }

    [Test]
    public void WhiteNoiseSnrDb_InTheDarkSlot_AddsNothing()
    {
        KeyValues clean = Settings.Steady().Set(AmbientKeys.LevelNa, 200);
        Assert.That(
            Recording.Of(clean.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 0), 10).Codes(ChannelName.Dark),
            Is.EqualTo(Recording.Of(clean, 10).Codes(ChannelName.Dark)));
    }

    private static double Rms(KeyValues clean, KeyValues noisy) => Measure.Rms(Measure.Less(
        Recording.Of(noisy, 600).Physical(ChannelName.Infrared), Recording.Of(clean, 600).Physical(ChannelName.Infrared)));

    private static double[] Heights(Recording clean, ChannelName name)
    {
        double[] light = Measure.Less(clean.Physical(name), clean.Physical(ChannelName.Dark));
        double delay = clean.Channel(name).DeclaredDelayNs * 1e-9;
        double[] feet = clean.TruthSeconds(name, MarkKind.PulseFootMinimum);
        double[] peaks = clean.TruthSeconds(name, MarkKind.SystolicPeak);
        return [.. peaks.Where(p => p > 1 && p < 119).Select(p => At(light, feet.Last(f => f < p) + delay) - At(light, p + delay))];
    }

    private static double At(double[] light, double seconds)
    {
        int i = (int)Math.Floor(seconds * Rate);
        return light[i] + (((seconds * Rate) - i) * (light[i + 1] - light[i]));
    }

    private static double TrimmedMean(double[] heights)
    {
        int cut = heights.Length / 20;
        return heights.Order().Skip(cut).Take(heights.Length - (2 * cut)).Average();
    }
}
