// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class OxygenTests
{
    private static readonly CommonClock s_clock = new(1000);

    // The definition of A_rms on a constructed list (ISO 80601-2-61; from memory): errors 1 −1 2 1 −2 2 −1 −1.
    [Test]
    public void AccuracyRms_WorkedExample_IsTheRootOfTheMeanSquare() =>
        Assert.That(AccuracyRms([97, 95, 90, 86, 82, 77, 73, 98], [96, 96, 88, 85, 84, 75, 74, 99]), Is.EqualTo(1.45774).Within(1e-5));

    // Noise of −76 dB of the level in each sample, four beats and rates; required: 0.6 points at 1 %, 1.2 points at 0.3 %.
    [TestCase(1, 0.3)]
    [TestCase(0.3, 0.6)]
    public void Pulse_WeakPulses_StayWithinTheAccuracy(double perfusionPercent, double largestRms)
    {
        var errors = new List<double>();
        int seed = 0;
        foreach (double saturation in new double[] { 71, 80, 90, 97 })
        {
            foreach (double beatS in new[] { 0.5, 0.83, 1.2 })
            {
                var light = new SyntheticLight
                {
                    BeatS = beatS, PerfusionPercent = perfusionPercent, Ratio = (110 - saturation) / 25, NoiseShare = Math.Pow(10, -76 / 20.0),
                };
                Oxygen oxygen = Started(100);
                List<Reading> given = light.Run(ref oxygen, 90, ++seed);
                Assert.That(given, Has.Count.GreaterThan(65));
                errors.AddRange(given.Select(r => (r.ValueMilli / 1000.0) - saturation));
            }
        }

        double rms = Math.Sqrt(errors.Average(e => e * e));
        TestContext.Out.WriteLine($"A_rms {rms:F3} bias {errors.Average():F3}");
        Assert.That(rms, Is.LessThan(largestRms));

        // A plain regression reads high: noise of infrared makes R small.
        Assert.That(errors.Average(), Is.EqualTo(0).Within(0.05));
    }

    // Without noise the arithmetic is all that is left: every rate, narrow and wide codes, unequal levels.
    [TestCase(25, 300_000, 400_000)]
    [TestCase(50, 300_000, 100_000)]
    [TestCase(100, 20_000, 30_000)]
    [TestCase(100, 8_000_000, 8_000_000)]
    [TestCase(250, 300_000, 400_000)]
    [TestCase(500, 8_000_000, 2_000_000)]
    public void Pulse_CleanLight_IsExact(int rateHz, double redLevel, double infraredLevel)
    {
        foreach (double ratio in new[] { 0.4, 0.52, 1.0, 1.6 })
        {
            var light = new SyntheticLight { RateHz = rateHz, Ratio = ratio, RedLevel = redLevel, InfraredLevel = infraredLevel, PerfusionPercent = 2 };
            Oxygen oxygen = Started(rateHz);
            List<Reading> given = light.Run(ref oxygen, 20, 1);
            Assert.That(given, Is.Not.Empty);

            // Codes of 20,000 leave 400 × 0.4 steps for the red pulse; else light is bent by exp: R reads 1 % × (1 − R) / 2 low at most.
            double withinPoints = redLevel < 100_000 ? 0.15 : 0.1;
            Assert.That(given[^1].ValueMilli / 1000.0, Is.EqualTo(110 - (25 * ratio)).Within(withinPoints), $"ratio {ratio}");
            Assert.That(oxygen.Ratio / 10_000.0, Is.EqualTo(ratio).Within(withinPoints / 25));
            Assert.That(given[^1].Quality, Is.GreaterThan(240));
            Assert.That(given[^1].WindowTicks256 / 256_000.0, Is.EqualTo(7 * light.BeatS).Within(0.02));
        }
    }

    // A level that breathes by half a pulse with a ratio of 1 draws the reading towards 85 % only a little.
    [Test]
    public void Pulse_BreathingBaseline_IsMostlyFilteredOut()
    {
        var light = new SyntheticLight { Ratio = 0.52, BaselineShare = 0.25 };
        Oxygen oxygen = Started(100);
        List<Reading> given = light.Run(ref oxygen, 120, 1);
        Assert.That(Math.Sqrt(given.Average(r => Math.Pow((r.ValueMilli / 1000.0) - 97, 2))), Is.LessThan(0.6));
    }

    [TestCase(0.09, false)]
    [TestCase(0.12, true)]
    public void Pulse_PerfusionBelowATenthOfAPercent_IsRefused(double perfusionPercent, bool isGiven)
    {
        Oxygen oxygen = Started(100);
        List<Reading> given = new SyntheticLight { PerfusionPercent = perfusionPercent }.Run(ref oxygen, 20, 1);
        Assert.That(given.Count > 0, Is.EqualTo(isGiven));
    }

    [TestCase(0.2, 100)]
    [TestCase(1.9, 70)]
    [TestCase(2.6, 70)]
    public void Pulse_BeyondTheRange_IsClippedWithLowQuality(double ratio, double percent)
    {
        Oxygen oxygen = Started(100);
        List<Reading> given = new SyntheticLight { Ratio = ratio, PerfusionPercent = 2 }.Run(ref oxygen, 20, 1);
        Assert.That(given[^1].ValueMilli, Is.EqualTo(percent * 1000));
        Assert.That(given[^1].Quality, Is.LessThan(64));
    }

    // Red without a pulse of its own does not beat together with infrared.
    [Test]
    public void Pulse_RedIsNoise_IsRefused()
    {
        var random = new Random(1);
        Oxygen oxygen = Started(100);
        NoProbe probe = default;
        int given = 0;
        for (int i = 0; i < 20_000; i++)
        {
            oxygen.Next(300_000 + random.Next(-1000, 1000), 300_000 - (int)(3000 * Math.Sin(i * 0.0785)), ref probe);
            given += i % 80 == 79 && oxygen.Pulse(Told(6000), i * 2560L) ? 1 : 0;
        }

        Assert.That(given, Is.Zero);
    }

    // For ten seconds the pulses are three times as large and equal in both colours, as movement makes them: the first ones are no part of the
    // reading, and it is not trusted.
    [Test]
    public void Pulse_SuddenlyLarger_IsLeftOutAndLowersTheTrust()
    {
        Oxygen oxygen = Started(100);
        List<Reading> rest = new SyntheticLight { Ratio = 0.52 }.Run(ref oxygen, 20, 1);
        List<Reading> moving = new SyntheticLight { Ratio = 1, PerfusionPercent = 3, BeatS = 0.7 }.Run(ref oxygen, 10, 1);
        Assert.That(moving, Has.Count.InRange(3, 11)); // of 14
        Assert.That(moving[0].Quality, Is.LessThan(rest[^1].Quality - 90));
    }

    // The level of red jumps to a half, as with a change of its current: after Restart nothing of it is in a reading.
    [Test]
    public void Restart_LevelJumps_KeepsTheReading()
    {
        Oxygen oxygen = Started(100);
        new SyntheticLight { Ratio = 0.52 }.Run(ref oxygen, 20, 1);
        oxygen.Restart();
        List<Reading> given = new SyntheticLight { Ratio = 0.52, RedLevel = 150_000 }.Run(ref oxygen, 20, 1);
        Assert.That(given, Is.Not.Empty);
        Assert.That(given.Select(r => r.ValueMilli / 1000.0), Is.All.EqualTo(97).Within(0.1));
    }

    [TestCase(24, false)]
    [TestCase(25, true)]
    [TestCase(500, true)]
    [TestCase(501, false)]
    public void Start_Rates_AreThoseOfThePulseDetector(int rateHz, bool isAllowed)
    {
        var oxygen = new Oxygen();
        Assert.That(oxygen.Start(rateHz, s_clock, OxygenTable.Textbook), Is.EqualTo(isAllowed));
    }

    [Test]
    public void Start_TableOfOnePair_IsRefused()
    {
        OxygenTable table = default;
        table.Add(5000, 97_000);
        Assert.That(new Oxygen().Start(100, s_clock, table), Is.False);
    }

    private static double AccuracyRms(double[] read, double[] blood) => Math.Sqrt(read.Zip(blood, (a, b) => (a - b) * (a - b)).Average());

    private static PulseEvent Told(int amplitude) => new(default, default, default, amplitude, 255, 0, default, 300_000);

    private static Oxygen Started(int rateHz)
    {
        var oxygen = new Oxygen();
        Assert.That(oxygen.Start(rateHz, s_clock, OxygenTable.Textbook), Is.True);
        return oxygen;
    }
}
