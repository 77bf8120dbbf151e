// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class FusedRateTests
{
    private const long Second = 1000 * 256;

    // Rates and qualities of ECG, pulse and spectrum, all of now; then what is given and with which quality (0: nothing).
    [TestCase(70, 100, 71, 80, 0, 0, 70, 140)]
    [TestCase(70, 80, 71, 100, 0, 0, 71, 140)]
    [TestCase(70, 200, 71, 200, 0, 0, 70, 255)]
    [TestCase(70, 90, 0, 0, 0, 0, 70, 90)]
    [TestCase(0, 0, 0, 0, 95, 60, 95, 60)]
    [TestCase(70, 100, 90, 163, 0, 0, 0, 0)]
    [TestCase(70, 100, 90, 164, 0, 0, 90, 82)]
    [TestCase(140, 130, 70, 100, 71, 90, 70, 145)]
    [TestCase(70, 220, 140, 130, 0, 0, 70, 110)]
    [TestCase(0, 0, 0, 0, 0, 0, 0, 0)]
    // Bigeminy: the early beats make no pulse. The ECG counts beats.
    [TestCase(80, 192, 40, 255, 0, 0, 80, 96)]
    [TestCase(80, 192, 40, 255, 40, 255, 80, 96)]
    [TestCase(80, 143, 40, 255, 40, 255, 40, 255)]
    // 4 bpm apart or a sixteenth is near: 160 and 170, not 64 and 69.
    [TestCase(160, 100, 170, 50, 0, 0, 160, 125)]
    [TestCase(64, 100, 69, 90, 0, 0, 0, 0)]
    public void Update_ThreeRates_GivesTheOneThatStandsBest(
        int ecg, int ecgQuality, int pulse, int pulseQuality, int spectrum, int spectrumQuality, int given, int quality)
    {
        FusedRate fused = Started();
        bool isGiven = fused.Update(
            Rate(ecg, ecgQuality, 100), Rate(pulse, pulseQuality, 100), Rate(spectrum, spectrumQuality, 100), 100 * Second);
        Assert.That(isGiven, Is.EqualTo(given != 0));
        Assert.That(fused.Latest.ValueMilli, Is.EqualTo(given * 1000));
        Assert.That(fused.Latest.Quality, Is.EqualTo(quality));
        Assert.That(fused.Latest.Kind, Is.EqualTo(ReadingKind.HeartRateFused));
    }

    [TestCase(0, 160)]
    [TestCase(2, 120)]
    [TestCase(4, 80)]
    [TestCase(7, 20)]
    [TestCase(8, 0)]
    [TestCase(100, 0)]
    public void Update_OldRate_LosesItsTrustOverEightSeconds(int ageS, int quality)
    {
        FusedRate fused = Started();
        fused.Update(Rate(70, 160, 100), default, default, (100 + ageS) * Second);
        Assert.That(fused.Latest.Quality, Is.EqualTo(quality));
    }

    [Test]
    public void Update_SameReadingAgain_IsNotNewAndKeepsItsWindow()
    {
        FusedRate fused = Started();
        Reading ecg = Rate(70, 160, 100);
        Assert.That(fused.Update(ecg, default, default, 100 * Second), Is.True);
        Assert.That(fused.Update(ecg, Rate(70, 90, 101), default, 101 * Second), Is.False);
        Assert.That(fused.Latest.Quality, Is.GreaterThan(160));
        Assert.That(fused.Latest.Ticks256, Is.EqualTo(ecg.Ticks256));
        Assert.That(fused.Latest.WindowTicks256, Is.EqualTo(ecg.WindowTicks256));
    }

    private static FusedRate Started()
    {
        var fused = new FusedRate();
        fused.Start(new CommonClock(1000));
        return fused;
    }

    private static Reading Rate(int bpm, int quality, int atS) =>
        new(ReadingKind.HeartRateEcg, bpm * 1000, (byte)quality, atS * Second, 7 * Second);
}
