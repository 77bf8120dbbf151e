// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Rhythm;

/// <summary>SDNN, RMSSD and LF/HF of long runs against the wanted values, by the definitions of the Task Force (Circulation 93:1043, 1996).</summary>
public sealed class WantedVariabilityTests
{
    // Sizes inside the short-term values of Nunan et al., PACE 33:1407, 2010 (SDNN 50 +- 16, RMSSD 42 +- 15 ms, LF/HF 2.8 +- 2.6).
    [TestCase(65, 50, 42, 1.5, 15)]
    [TestCase(65, 50, 30, 2.8, 15)]
    [TestCase(75, 35, 20, 1.0, 14)]
    [TestCase(55, 80, 60, 0.6, 16)]
    [TestCase(90, 25, 12, 4.0, 18)]
    public void LongRun_HasTheWantedValues(double rateBpm, double sdnnMs, double rmssdMs, double lfHf, double breathsPerMin)
    {
        KeyValues values = new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(HeartKeys.SdnnMs, sdnnMs).Set(HeartKeys.RmssdMs, rmssdMs)
            .Set(HeartKeys.LfHf, lfHf).Set(BreathingKeys.RatePerMin, breathsPerMin);
        var sdnn = new List<double>();
        var rmssd = new List<double>();
        var ratio = new List<double>();
        for (ulong seed = 1; seed <= 3; seed++)
        {
            var heart = new Rhythms(values, seed, 6 * 3600);
            double[] rr = heart.RrMs;
            sdnn.Add(Moments.Sd(rr));
            rmssd.Add(Moments.Rmssd(rr));
            var spectrum = new Tachogram(heart.R[..^1], rr);
            ratio.Add(spectrum.Power(0.04, 0.15) / spectrum.Power(0.15, 0.40));
        }

        // The spline between beats takes a few percent from HF; modulated beat times add to it: 8 % for the ratio.
        Assert.That(sdnn.Average(), Is.EqualTo(sdnnMs).Within(3).Percent);
        Assert.That(rmssd.Average(), Is.EqualTo(rmssdMs).Within(3).Percent);
        Assert.That(ratio.Average(), Is.EqualTo(lfHf).Within(8).Percent);
    }

    [Test]
    public void Bands_MoreRmssdThanSdnnAllows_NeedNegativeSlowPower()
    {
        KeyValues values = new KeyValues().Set(HeartKeys.SdnnMs, 30).Set(HeartKeys.RmssdMs, 60).Set(HeartKeys.LfHf, 1);
        Assert.That(VariabilityBands.From(values).DriftMs, Is.NaN);
        double largest = VariabilityBands.LargestRmssdMs(values);
        Assert.That(VariabilityBands.From(values.Copy().Set(HeartKeys.RmssdMs, largest * 0.9999)).DriftMs, Is.EqualTo(0).Within(1));
        Assert.That(VariabilityBands.From(values.Copy().Set(HeartKeys.RmssdMs, largest * 1.0001)).DriftMs, Is.NaN);
    }

    [Test]
    public void Bands_AreTheKnobsWhenNothingIsWanted() => Assert.That(VariabilityBands.From(new KeyValues()).IsGiven, Is.False);
}
