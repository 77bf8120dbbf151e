// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class RrVariabilityTests
{
    private static readonly CommonClock s_clock = new(1000);

    // RR = T + A sin(2π f t): SDNN = A/√2, RMSSD = √2 A sin(π f T) (closed form; T 800 ms, A 30 ms). A minute holds 15 or 6 whole cycles.
    [TestCase(0.25, 21.21, 24.94)]
    [TestCase(0.10, 21.21, 10.55)]
    public void Add_SineOf30Ms_HasTheClosedFormsSpread(double frequencyHz, double sdnnMs, double rmssdMs)
    {
        RrVariability variability = Started();
        double t = 2;
        int given = 0;
        for (int i = 0; i < 400; i++)
        {
            if (variability.Add(At(t), i == 0, true))
            {
                given++;
                Assert.That(variability.Mean.ValueMilli / 1000.0, Is.EqualTo(800).Within(2));
                Assert.That(variability.Sdnn.ValueMilli / 1000.0, Is.EqualTo(sdnnMs).Within(0.5));
                Assert.That(variability.Rmssd.ValueMilli / 1000.0, Is.EqualTo(rmssdMs).Within(0.4));
                Assert.That(variability.Mean.WindowTicks256, Is.EqualTo(60 * 256_000));
                Assert.That(variability.Mean.Quality, Is.GreaterThanOrEqualTo(245));
            }

            t += 0.8 + (0.03 * Math.Sin(2 * Math.PI * frequencyHz * t));
        }

        Assert.That(given, Is.EqualTo(26)); // 320 s: at 60, 70, ... 310 s after the first beat
    }

    [Test]
    public void Add_RandomIntervals_IsWhatDoublesSay()
    {
        var random = new Random(5);
        RrVariability variability = Started();
        var beats = new List<double>();
        double t = 1;
        int given = 0;
        for (int i = 0; i < 2000; i++)
        {
            t += 0.7 + (0.1 * (random.NextDouble() - 0.5)) + (0.02 * Math.Sin(t));
            double place = At(t) / 256_000.0;
            if (variability.Add(At(t), i == 0, true))
            {
                given++;
                double end = variability.Mean.Ticks256 / 256_000.0;
                int[] ends = [.. Enumerable.Range(1, beats.Count - 1).Where(k => beats[k] < end && beats[k] >= end - 60)];
                double Interval(int k) => (beats[k] - beats[k - 1]) * 1000;
                double[] inside = [.. ends.Select(Interval)];
                double[] differences = [.. ends.Where(k => k > 1).Select(k => Interval(k) - Interval(k - 1))];
                double mean = inside.Average();
                Assert.That(variability.Mean.ValueMilli / 1000.0, Is.EqualTo(mean).Within(0.05));
                Assert.That(variability.Sdnn.ValueMilli / 1000.0, Is.EqualTo(Math.Sqrt(inside.Sum(v => (v - mean) * (v - mean)) / (inside.Length - 1))).Within(0.05));
                Assert.That(variability.Rmssd.ValueMilli / 1000.0, Is.EqualTo(Math.Sqrt(differences.Average(v => v * v))).Within(0.05));
            }

            beats.Add(place);
        }

        Assert.That(given, Is.GreaterThan(100));
    }

    // Every tenth beat comes early and a pause follows. Whether it is told as wide or only comes early, its intervals are left out.
    [TestCase(true)]
    [TestCase(false)]
    public void Add_EctopicBeats_AreLeftOut(bool isTold)
    {
        RrVariability variability = Started();
        double t = 1;
        for (int i = 0; i < 200; i++)
        {
            bool isEctopic = i % 10 == 9;
            t += isEctopic ? 0.5 : i % 10 == 0 ? 1.1 : 0.8 + (i % 2 * 0.02);
            variability.Add(At(t), i == 0, !isTold || !isEctopic);
        }

        Assert.That(variability.Mean.ValueMilli / 1000.0, Is.EqualTo(810).Within(2));
        Assert.That(variability.Sdnn.ValueMilli / 1000.0, Is.EqualTo(10).Within(0.5));
        Assert.That(variability.Rmssd.ValueMilli / 1000.0, Is.EqualTo(20).Within(0.5));
        Assert.That(variability.Mean.Quality, Is.InRange(100, 190));
    }

    // The pause after an early beat may be hardly longer than usual: it belongs to the early beat all the same.
    [Test]
    public void Add_EarlyBeatWithAShortPause_LeavesThePauseOut()
    {
        RrVariability variability = Started();
        double t = 1;
        for (int i = 0; i < 200; i++)
        {
            t += i % 10 == 9 ? 0.5 : i % 10 == 0 ? 0.92 : 0.8;
            variability.Add(At(t), i == 0, true);
        }

        Assert.That(variability.Mean.ValueMilli / 1000.0, Is.EqualTo(800).Within(0.5));
        Assert.That(variability.Sdnn.ValueMilli / 1000.0, Is.LessThan(0.5));
    }

    [Test]
    public void Add_MostIntervalsLeftOut_GivesNothing()
    {
        var random = new Random(3);
        RrVariability variability = Started();
        double t = 1;
        for (int i = 0; i < 500; i++)
        {
            t += 0.3 + (0.9 * random.NextDouble());
            Assert.That(variability.Add(At(t), i == 0, true), Is.False);
        }
    }

    [Test]
    public void Add_NewRate_IsTakenAfterFiveIntervals()
    {
        RrVariability variability = Started();
        double t = 1;
        for (int i = 0; i < 300; i++)
        {
            t += i < 100 ? 1 : 0.6;
            variability.Add(At(t), i == 0, true);
        }

        Assert.That(variability.Mean.ValueMilli, Is.EqualTo(600_000).Within(100));
        Assert.That(variability.Sdnn.ValueMilli, Is.LessThan(300));
    }

    [Test]
    public void Add_AfterSilenceOfAMinute_NothingOfBeforeIsLeft()
    {
        RrVariability variability = Started();
        double t = 1;
        for (int i = 0; i < 240; i++)
        {
            t += i == 120 ? 500 : i < 120 ? 1 : 0.9;
            bool isNew = variability.Add(At(t), i is 0 or 120, true);
            Assert.That(isNew && i > 120 && t < 681, Is.False);
        }

        Assert.That(variability.Mean.ValueMilli, Is.EqualTo(900_000).Within(100));
    }

    private static long At(double seconds) => (long)Math.Round(seconds * 256_000);

    private static RrVariability Started()
    {
        var variability = new RrVariability();
        variability.Start(s_clock);
        return variability;
    }
}
