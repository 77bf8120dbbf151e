// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PerfusionIndexTests
{
    // 100 × (max − min) / middle; level is the brightest: middle = level − amplitude / 2.
    [TestCase(1000, 100_500, 1000)]
    [TestCase(300, 100_150, 300)]
    [TestCase(20_000, 110_000, 20_000)]
    [TestCase(1, 10_000_000, 0)]
    public void Add_EightEqualPulses_IsAmplitudeOverMiddle(int amplitude, int level, int milliPercent)
    {
        PerfusionIndex index = Started();
        for (int i = 0; i < 9; i++)
        {
            Assert.That(index.Add(Pulse(amplitude, level, i == 0), i * 256_000L), Is.EqualTo(i >= 3));
        }

        Assert.That(index.Latest.ValueMilli, Is.EqualTo(milliPercent).Within(1));
        Assert.That(index.Latest.WindowTicks256 / 256_000.0, Is.EqualTo(7).Within(0.001));
        Assert.That(index.Latest.Quality, Is.EqualTo(255));
    }

    [Test]
    public void Add_RandomPulses_IsTheMeanOfTheLastEight()
    {
        var random = new Random(4);
        PerfusionIndex index = Started();
        var all = new List<double>();
        for (int i = 0; i < 500; i++)
        {
            int level = random.Next(10_000, 8_000_000);
            int amplitude = Math.Max(1, (int)(level * 0.2 * random.NextDouble()));
            all.Add(100.0 * amplitude / (level - (amplitude / 2.0)));
            if (index.Add(Pulse(amplitude, level, i == 0), i * 256_000L))
            {
                Assert.That(index.Latest.ValueMilli / 1000.0, Is.EqualTo(all.TakeLast(8).Average()).Within(0.0015));
            }
        }
    }

    [Test]
    public void Add_RunBegins_ForgetsWhatWasBefore()
    {
        PerfusionIndex index = Started();
        int given = 0;
        for (int i = 0; i < 12; i++)
        {
            given += index.Add(Pulse(i < 8 ? 1000 : 2000, 100_000, i is 0 or 8), i * 256_000L) ? 1 : 0;
        }

        Assert.That(given, Is.EqualTo(6));
        Assert.That(index.Latest.ValueMilli, Is.EqualTo(2020).Within(1));
        Assert.That(index.Latest.Quality, Is.EqualTo(128));
    }

    [TestCase(1000, true)]
    [TestCase(1400, true)]
    [TestCase(1700, false)]
    public void IsSteady_OnePulseLarger_OnlyWithinASixteenth(int amplitude, bool isSteady)
    {
        PerfusionIndex index = Started();
        for (int i = 0; i < 12; i++)
        {
            index.Add(Pulse(i == 10 ? amplitude : 1000, 1_000_000, i == 0), i * 256_000L);
            Assert.That(index.IsSteady, Is.EqualTo(i >= 7 && (i < 10 || isSteady)));
        }
    }

    [TestCase(0, 1000)]
    [TestCase(100, 0)]
    [TestCase(100, 50)]
    public void Add_NoLevelOrNoPulse_IsRefused(int amplitude, int level)
    {
        PerfusionIndex index = Started();
        for (int i = 0; i < 10; i++)
        {
            Assert.That(index.Add(Pulse(amplitude, level, i == 0), i * 256_000L), Is.False);
        }
    }

    private static PulseEvent Pulse(int amplitude, int level, bool startsRun) =>
        new(default, default, default, amplitude, 255, 0, default, level, startsRun);

    private static PerfusionIndex Started()
    {
        var index = new PerfusionIndex();
        index.Start(new CommonClock(1000));
        return index;
    }
}
