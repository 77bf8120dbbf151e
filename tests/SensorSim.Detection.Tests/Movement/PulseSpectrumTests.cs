// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Heart rate by spectrum: at rest at any rate, under movement across the cadence, and silence where there is nothing.</summary>
[TestFixture]
public sealed class PulseSpectrumTests
{
    [TestCase(40, 100)]
    [TestCase(52, 25)]
    [TestCase(60, 100)]
    [TestCase(75, 50)]
    [TestCase(93, 64)]
    [TestCase(110, 100)]
    [TestCase(133, 125)]
    [TestCase(150, 500)]
    [TestCase(180, 100)]
    [TestCase(210, 200)]
    [TestCase(70, 20)]
    [TestCase(70, 31)]
    public void Next_Rest_IsTheRate(double bpm, int lightHz)
    {
        int[] light = new SyntheticPulse { RateHz = lightHz, BeatS = 60 / bpm, SnrDb = 24 }.Make(60, 5050);
        List<Window> windows = Run(light, new int[light.Length], lightHz);
        Assert.That(windows, Has.Count.GreaterThanOrEqualTo(24));
        foreach (Window window in windows.Skip(4))
        {
            Assert.That(window.IsTrusted, Is.True);
            Assert.That(window.Bpm, Is.EqualTo(bpm).Within(1.0));
        }
    }

    [Test]
    public void Next_Resting_GivesEveryFourthWindowAndThenAllAgain()
    {
        int[] light = new SyntheticPulse { RateHz = 100, BeatS = 60 / 72.0, SnrDb = 24 }.Make(120, 5052);
        var always = new PulseSpectrum();
        var resting = new PulseSpectrum();
        always.Start(100);
        resting.Start(100);
        NoProbe probe = default;
        int given = 0;
        for (int i = 0; i < light.Length; i++)
        {
            resting.IsResting = i is > 2000 and < 8000;
            bool isAlways = always.Next(light[i], 0, ref probe);
            bool isResting = resting.Next(light[i], 0, ref probe);
            Assert.That(isResting && !isAlways, Is.False);
            Assert.That(isResting, Is.EqualTo(resting.IsResting ? isResting : isAlways), $"sample {i}");
            given += isResting && resting.IsResting ? 1 : 0;
            if (isResting)
            {
                // The window is the same; of a steady pulse the track too.
                Assert.That(resting.RateMilliBpm, Is.EqualTo(always.RateMilliBpm), $"sample {i}");
            }
        }

        Assert.That(given, Is.InRange(7, 8), "60 s of windows every 8 s");
    }

    [Test]
    public void Next_WhiteNoise_IsHardlyEverTrusted()
    {
        var random = new Random(5051);
        int[] light = [.. Enumerable.Range(0, 60_000).Select(_ => 300_000 + (int)(500 * SyntheticEcg.Normal(random)))];
        List<Window> windows = Run(light, new int[light.Length], 100);
        Assert.That(windows.Count(w => w.IsTrusted) / (double)windows.Count, Is.LessThan(0.1));
    }

    [Test]
    public void Next_RateThatCrossesTheCadence_IsFollowed()
    {
        // Artefact of 1.9 steps a second, over three times the pulse's rms, explained but for a tenth of its power; 100 to 128 bpm in four minutes.
        (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(unexplained: 0.33, 240);
        List<Window> windows = RunMoving(light, codes);
        double sum = 0;
        int given = 0;
        foreach (Window window in windows.Where(w => w.AtS > 20))
        {
            given += window.IsTrusted ? 1 : 0;
            sum += window.IsTrusted ? Math.Abs(window.Bpm - bpmAt(window.AtS - 4)) : 0;
        }

        Assert.That(given, Is.GreaterThan(0.8 * windows.Count(w => w.AtS > 20)));
        Assert.That(sum / given, Is.LessThan(3));
    }

    [Test]
    public void Next_MostlyUnexplainedArtefact_IsWithheldOrRight()
    {
        (int[] light, int[][] codes, Func<double, double> bpmAt) = Artefacts.Crossing(unexplained: 1, 240);
        List<Window> windows = [.. RunMoving(light, codes).Where(w => w.AtS > 20)];
        int wrong = windows.Count(w => w.IsTrusted && Math.Abs(w.Bpm - bpmAt(w.AtS - 4)) > Math.Max(5, 0.1 * bpmAt(w.AtS - 4)));
        Assert.That(wrong, Is.LessThanOrEqualTo(windows.Count / 10));
    }

    [Test]
    public void Next_StepOfTheLevel_IsForgottenAfterAWindow()
    {
        int[] light = [.. new SyntheticPulse { BeatS = 0.75, SnrDb = 30 }.Make(90, 5053).Select((v, i) => i >= 4500 ? v + 100_000 : v)];
        List<Window> windows = Run(light, new int[light.Length], 100);
        foreach (Window window in windows.Where(w => w.AtS > 60))
        {
            Assert.That(window.IsTrusted, Is.True, $"{window.AtS}");
            Assert.That(window.Bpm, Is.EqualTo(80).Within(1), $"{window.AtS}");
        }
    }

    [Test]
    public void Next_FullScaleLightAtEveryRate_NeverThrows()
    {
        foreach (int rate in new[] { 20, 25, 100, 499, 800 })
        {
            int[] light = [.. Enumerable.Range(0, rate * 40).Select(i => i * 3 / rate % 2 == 0 ? 0 : 16_777_215)];
            int[] artefact = [.. Enumerable.Range(0, rate * 40).Select(i => i * 5 / rate % 2 == 0 ? -16_777_215 : 16_777_215)];
            Assert.That(Run(light, artefact, rate), Is.Not.Empty);
        }
    }

    [TestCase(19)]
    [TestCase(801)]
    public void Start_RateOutOfRange_SaysNo(int rate)
    {
        Assert.That(new PulseSpectrum().Start(rate), Is.False);
    }

    private static List<Window> RunMoving(int[] light, int[][] codes)
    {
        int[] output = CancellerTests.Output(light, codes, 100, 50);
        return Run(output, [.. light.Zip(output, (a, b) => a - b)], 100);
    }

    private static List<Window> Run(int[] light, int[] artefact, int rateHz)
    {
        var spectrum = new PulseSpectrum();
        Assert.That(spectrum.Start(rateHz), Is.True);
        NoProbe probe = default;
        var windows = new List<Window>();
        for (int i = 0; i < light.Length; i++)
        {
            if (spectrum.Next(light[i], artefact[i], ref probe))
            {
                windows.Add(new Window((i + 1.0) / rateHz, spectrum.RateMilliBpm / 1000.0, spectrum.IsTrusted));
            }
        }

        return windows;
    }

    private sealed record Window(double AtS, double Bpm, bool IsTrusted);
}
