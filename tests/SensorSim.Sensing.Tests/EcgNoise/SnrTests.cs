// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>Levels by ratio: the noise-stress protocol of Moody, Muldrow and Mark 1984, power of the signal (QRS peak to peak)²/8.</summary>
public sealed class SnrTests
{
    private static KeyValues OneMillivolt() => Settings.Steady().Set(EcgKeys.QMv, 0).Set(EcgKeys.RMv, 1).Set(EcgKeys.SMv, 0);

    // Peak to peak of −0.12, 1 and −0.2 mV a quarter of the QRS apart, width a quarter over √(2 ln 50): numpy, four million points.
    [Test]
    public void PeakToPeakMv_OfTheDefaults_IsThatOfTheSumOfThreeGaussians() =>
        Assert.That(SteadyQrs.PeakToPeakMv(new KeyValues()), Is.EqualTo(1.1785015719358278).Within(1e-6));

    [Test]
    public void PeakToPeakMv_OfOneWave_IsItsHeightWhateverSignAndDuration()
    {
        Assert.That(SteadyQrs.PeakToPeakMv(OneMillivolt()), Is.EqualTo(1).Within(1e-12));
        Assert.That(SteadyQrs.PeakToPeakMv(OneMillivolt().Set(EcgKeys.QrsMs, 160).Set(EcgKeys.Polarity, "swapped")), Is.EqualTo(1).Within(1e-12));
        Assert.That(SteadyQrs.PeakToPeakMv(OneMillivolt().Set(EcgKeys.RMv, 0)), Is.Zero);
    }

    // 1 mV peak to peak: 0.125 mV², and 1000 √(0.125 × 10^(−dB/10)) µV; the levels of the published noise-stress records.
    [TestCase(24, 22.3077)]
    [TestCase(18, 44.5097)]
    [TestCase(12, 88.8086)]
    [TestCase(6, 177.1964)]
    [TestCase(0, 353.5534)]
    [TestCase(-6, 705.4318)]
    public void RmsMv_OfARatio_IsThatOfTheNoiseStressTest(double decibel, double microvolts)
    {
        foreach ((NumberKey key, EcgNoiseKind kind) in new[]
        {
            (EcgNoiseKeys.WhiteNoiseSnrDb, EcgNoiseKind.WhiteNoise),
            (EcgNoiseKeys.BaselineWanderSnrDb, EcgNoiseKind.BaselineWander),
            (EcgNoiseKeys.MainsSnrDb, EcgNoiseKind.Mains),
            (EcgNoiseKeys.MuscleSnrDb, EcgNoiseKind.Muscle),
            (EcgNoiseKeys.SlowMotionSnrDb, EcgNoiseKind.SlowMotion),
            (EcgNoiseKeys.SharpMotionSnrDb, EcgNoiseKind.SharpMotion),
            (EcgNoiseKeys.RecordingSnrDb, EcgNoiseKind.Recording),
        })
        {
            KeyValues values = OneMillivolt().Set(MovementKeys.Activity, "walking").Set(key, decibel)
                .Attach(EcgNoiseKeys.RecordingFile, new NoiseRecording([.. Enumerable.Range(0, 999).Select(i => Math.Sin(i))], 250));
            var levels = new EcgNoiseLevels(values);
            Assert.That(1000 * levels.RmsMv(kind, 0), Is.EqualTo(microvolts).Within(1e-4), key.Name);
            Assert.That(levels.SnrDb(levels.TotalRmsMv(0)), Is.EqualTo(decibel).Within(1e-9), key.Name);
        }
    }

    [Test]
    public void RmsMv_OfVoltageAndRatio_AddsInPower()
    {
        var levels = new EcgNoiseLevels(OneMillivolt().Set(EcgNoiseKeys.MuscleUvRms, 30).Set(EcgNoiseKeys.MuscleSnrDb, 12));
        Assert.That(1000 * levels.RmsMv(EcgNoiseKind.Muscle, 0), Is.EqualTo(Math.Sqrt(900 + (88.8086 * 88.8086))).Within(1e-3));
    }

    [Test]
    public void SnrDb_OfNothing_IsNone()
    {
        var clean = new EcgNoiseLevels(OneMillivolt());
        Assert.That(clean.TotalRmsMv(0), Is.Zero);
        Assert.That(clean.SnrDb(0), Is.Null);
        var flat = new EcgNoiseLevels(OneMillivolt().Set(EcgKeys.RMv, 0).Set(EcgNoiseKeys.MuscleSnrDb, 0).Set(EcgNoiseKeys.MuscleUvRms, 5));
        Assert.That(flat.TotalRmsMv(0), Is.EqualTo(0.005).Within(1e-15), "nothing to be 0 dB below");
        Assert.That(flat.SnrDb(0.005), Is.Null);
    }

    // White noise: 12 Hz of the half rate. At 250 Hz 10 log10(125/12) = 10.177 dB more, at 50 Hz 10 log10(25/12) = 3.188 dB.
    [TestCase(250, 10.177)]
    [TestCase(50, 3.188)]
    public void BandRmsMv_OfWhiteNoise_IsItsShareOfTheHalfRate(int rate, double more)
    {
        var levels = new EcgNoiseLevels(OneMillivolt().Set(EcgAmplifierKeys.RateHz, rate).Set(EcgNoiseKeys.WhiteNoiseSnrDb, 12));
        Assert.That(levels.SnrDb(levels.TotalBandRmsMv(0)) - 12, Is.EqualTo(more).Within(1e-3));
    }

    // scipy: shares of power between 8 and 20 Hz by numerical transforms of the definitions.
    [TestCase("slow", (0.7 * 0.0932026) + (0.3 * 0.0366703))]
    [TestCase("sharp", 0.575149)]
    [TestCase("muscle", 0.022691)]
    public void BandRmsMv_OfASource_IsThatOfItsSpectrum(string source, double share)
    {
        KeyValues values = OneMillivolt().Set(MovementKeys.Activity, "walking");
        (NumberKey key, EcgNoiseKind kind) = source switch
        {
            "slow" => (EcgNoiseKeys.SlowMotionUvRms, EcgNoiseKind.SlowMotion),
            "sharp" => (EcgNoiseKeys.SharpMotionUvRms, EcgNoiseKind.SharpMotion),
            _ => (EcgNoiseKeys.MuscleUvRms, EcgNoiseKind.Muscle),
        };
        var levels = new EcgNoiseLevels(values.Set(key, 100));

        // The filter of muscle noise meets the published spectrum within some percent.
        double within = source == "muscle" ? 0.05 : 2e-3;
        Assert.That(Math.Pow(levels.BandRmsMv(kind, 0) / 0.1, 2), Is.EqualTo(share).Within(share * within));
    }

    // The spline through nodes 0.5 s apart leaves 9e-10 of its power there (scipy); breathing is a line below 1 Hz.
    [Test]
    public void BandRmsMv_OfBaselines_IsNothing()
    {
        var levels = new EcgNoiseLevels(OneMillivolt().Set(EcgAmplifierKeys.BaselineWanderMvRms, 1).Set(EcgAmplifierKeys.BreathingBaselineMv, 1));
        Assert.That(levels.TotalBandRmsMv(0), Is.LessThan(4e-5));
        Assert.That(levels.TotalRmsMv(0), Is.EqualTo(Math.Sqrt(1.5)).Within(1e-12));
    }

    // 60 Hz at 50 Hz folds to 10 Hz, into the band; at 250 Hz it stays outside.
    [TestCase(50, 1)]
    [TestCase(250, 0)]
    public void BandRmsMv_OfTheMains_CountsTheLineWhereItFoldsTo(int rate, double share)
    {
        var levels = new EcgNoiseLevels(OneMillivolt().Set(EcgAmplifierKeys.RateHz, rate).Set(MainsKeys.FrequencyHz, 60)
            .Set(EcgAmplifierKeys.MainsSecondPercent, 0).Set(EcgAmplifierKeys.MainsThirdPercent, 0).Set(EcgAmplifierKeys.MainsUvPp, 200));
        Assert.That(levels.RmsMv(EcgNoiseKind.Mains, 0), Is.EqualTo(0.1 / Math.Sqrt(2)).Within(1e-12));
        Assert.That(levels.BandRmsMv(EcgNoiseKind.Mains, 0), Is.EqualTo(share * 0.1 / Math.Sqrt(2)).Within(1e-12));
    }

    // Power of the sum of three sines: a²/2 (1 + 0.1² + 0.2²), measured over whole periods. At 51 Hz no two lines fold together.
    [Test]
    public void MainsSnrDb_OnTheStream_HasThePowerOfTheRatio()
    {
        KeyValues clean = OneMillivolt().Set(MainsKeys.FrequencyHz, 51);
        double[] mains = AnalogEcg.Added(clean.Copy().Set(EcgNoiseKeys.MainsSnrDb, 12), clean, 20);
        Assert.That(1000 * Measure.Rms(mains), Is.EqualTo(88.8086).Within(0.02));
    }

    // Standard error of a Gaussian rms: σ/√(2n) (textbook).
    [Test]
    public void WhiteNoiseSnrDb_OnTheStream_HasThePowerOfTheRatio()
    {
        KeyValues clean = OneMillivolt();
        double[] noise = AnalogEcg.Added(clean.Copy().Set(EcgNoiseKeys.WhiteNoiseSnrDb, 6), clean, 200);
        Assert.That(1000 * Measure.Rms(noise), Is.EqualTo(177.1964).Within(177.1964 * 4 / Math.Sqrt(2 * noise.Length)));
    }
}
