// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Levels;

/// <summary>After a step the noise has the new level, before it the old one: within 4 standard errors σ/√(2n) of a Gaussian rms (textbook).</summary>
public sealed class LiveLevelTests
{
    private const double Seconds = 240;
    private const double StepSeconds = 100;

    // Acceleration: density × √(rate / 2), 50 Hz. Ratio: 20 log10((A / 2√2) / rms), A = level × (1 − darkest / brightest), perfusion index
    // 2 %: darkest / brightest = 0.99 / 1.01 (both definitions of this project).
    private static IEnumerable<TestCaseData> Noises()
    {
        double a = 2000 * (1 - (0.99 / 1.01)) / (2 * Math.Sqrt(2));
        yield return Case(EcgAmplifierKeys.WhiteNoiseUvRms, 20, 90, ChannelName.Ecg, 20e-3, 90e-3);
        yield return Case(OpticsKeys.WhiteNoiseNaRms, 4, 1, ChannelName.Dark, 4, 1);
        yield return Case(OpticsKeys.WhiteNoiseSnrDb, 20, 6, ChannelName.Infrared, a / 10, a / Math.Pow(10, 0.3));
        yield return Case(AccelerometerKeys.NoiseUgPerRthz, 200, 800, ChannelName.AccelY, 1e-3, 4e-3);
    }

    [TestCaseSource(nameof(Noises))]
    public void Noise_AroundAStep_HasTheStatedLevels(NumberKey key, double before, double after, ChannelName name, double levelBefore, double levelAfter)
    {
        KeyValues clean = Settings.Steady().Set(AmbientKeys.LevelNa, 100);
        KeyValues noisy = clean.Copy().Set(key, before).SetChanges(key, [new CourseChange(StepSeconds, ChangeKind.Step, after, 0)], []);
        double[] noise = Measure.Less(Recording.Of(noisy, Seconds).Physical(name), Recording.Of(clean, Seconds).Physical(name));
        int step = (int)(StepSeconds * noise.Length / Seconds);
        AssertRms(noise[..step], levelBefore);

        // 64 samples later at the latest.
        AssertRms(noise[(step + 64)..], levelAfter);
    }

    private static void AssertRms(double[] noise, double level) =>
        Assert.That(Measure.Rms(noise), Is.EqualTo(level).Within(4 * level / Math.Sqrt(2.0 * noise.Length)));

    private static TestCaseData Case(NumberKey key, double before, double after, ChannelName name, double levelBefore, double levelAfter) =>
        new TestCaseData(key, before, after, name, levelBefore, levelAfter).SetArgDisplayNames(key.Name);
}
