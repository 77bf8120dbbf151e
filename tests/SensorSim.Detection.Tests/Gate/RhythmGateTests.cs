// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;

namespace SensorSim.Detection.Tests.Gate;

/// <summary>The gate of the ECG on rhythms and on noise, drawn here; nothing is taken from the generator.</summary>
[TestFixture]
public sealed class RhythmGateTests
{
    /// <summary>Beats at chance times, as humps of noise give them: never nearer than 200 ms, heights of both signs.</summary>
    [TestCase(7001, 0.5)]
    [TestCase(7002, 0.8)]
    [TestCase(7003, 1.5)]
    public void ChanceBeatsDoNotOpenIt(int seed, double meanS)
    {
        var random = new Random(seed);
        var script = new GateScript { SignalLevel = 2200, NoiseLevel = 1000 };
        for (double t = 0; t < 7200;)
        {
            t += 0.2 - ((meanS - 0.2) * Math.Log(1 - random.NextDouble()));

            // Peaks of noise: a Rayleigh height above a threshold, either sign.
            double height = Math.Sqrt((1.2 * 1.2) - (2 * Math.Log(1 - random.NextDouble())));
            script.Beat(t, (int)(1000 * height * (random.Next(2) == 0 ? 1 : -1)));
        }

        Assert.That(script.EcgChanges, Is.Empty);
    }

    [TestCase(0.6, 0.2)]
    [TestCase(0.65, 0.24)]
    [TestCase(0.9, 0.3)]
    public void FibrillationOpensItAndKeepsItOpen(double meanS, double variation)
    {
        var random = new Random(7010);
        var script = new GateScript { NoiseLevel = 2000 };
        int held = 0;
        int beats = 0;
        for (double t = 1; t < 1800;)
        {
            double deviation = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            t += Math.Max(0.28, meanS * (1 + (variation * deviation)));
            script.Beat(t, 950 + random.Next(100));
            if (script.EcgChanges.Count > 0)
            {
                beats++;
                held += script.Ecg.IsOpen ? 0 : 1;
            }
        }

        Assert.That(script.EcgChanges[0].S, Is.LessThan(30));
        int shut = script.EcgChanges.Count / 2;
        Assert.That(shut, Is.LessThanOrEqualTo(30), "per half hour");
        Assert.That(held, Is.LessThan(0.35 * beats));
    }

    [TestCase(2)]
    [TestCase(3)]
    public void EveryFewBeatsEctopicOpensIt(int every)
    {
        var script = new GateScript();
        double t = 0;
        for (int beat = 1; t < 120; beat++)
        {
            bool isEctopic = beat % every == 0;
            t += isEctopic ? 0.5 : beat % every == 1 ? 1.1 : 0.8;
            script.Beat(t, isEctopic ? -1800 : 1000);
        }

        Assert.That(script.EcgChanges, Has.Count.EqualTo(1));
        Assert.That(script.EcgChanges[0].S, Is.LessThan(15));
        Assert.That(script.Ecg.IsOpen, Is.True, "no beat of the pattern is held back");
    }

    [Test]
    public void RandomEctopyOpensItAndKeepsItOpen()
    {
        var random = new Random(7020);
        var script = new GateScript();
        bool wasEctopic = false;
        for (double t = 0; t < 1200;)
        {
            bool isEctopic = !wasEctopic && random.NextDouble() < 0.1;
            t += isEctopic ? 0.5 : wasEctopic ? 1.1 : 0.8;
            script.Beat(t, isEctopic ? 2000 : 1000);
            wasEctopic = isEctopic;
        }

        Assert.That(script.EcgChanges, Has.Count.EqualTo(1), string.Join(' ', script.EcgChanges));
    }

    [Test]
    public void SpuriousBeatsNeverLeaveAWrongRate()
    {
        // Regular beats with chance ones of any height between: the rate of the trusted beats is right whenever the gate is open.
        var random = new Random(7030);
        var script = new GateScript { NoiseLevel = 2000 };
        var beats = new List<double>();
        int given = 0;
        int wrong = 0;
        for (int i = 1; i < 3000; i++)
        {
            double t = i * 0.85;
            Give(t, 900 + random.Next(200));
            if (random.NextDouble() < 0.08)
            {
                double extra = t + 0.25 + (0.35 * random.NextDouble());
                Give(extra, (int)(1000 * (0.4 + (1.6 * random.NextDouble())) * (random.Next(2) == 0 ? 1 : -1)));
            }
        }

        Assert.That(given, Is.GreaterThan(300));
        Assert.That(wrong, Is.LessThanOrEqualTo(given / 200));

        void Give(double t, int height)
        {
            beats.Add(t);
            script.Beat(t, height);
            double from = script.Ecg.TrustedFromTicks256 / 256.0 / GateScript.TicksPerSecond;
            double[] trusted = [.. beats.Where(b => b >= from - 0.001).TakeLast(9)];
            if (script.Ecg.IsOpen && trusted.Length >= 5)
            {
                double rate = 60 * (trusted.Length - 1) / (trusted[^1] - trusted[0]);
                given++;
                wrong += Math.Abs(rate - (60 / 0.85)) > 60 / 0.85 / 10 ? 1 : 0;
            }
        }
    }

    [Test]
    public void ItNeverFlutters()
    {
        // The worst that a signal can do: regular until it opens, then an extra beat at once.
        var script = new GateScript();
        bool wasOpen = false;
        for (double t = 0.3; t < 600; t += 0.3)
        {
            script.Beat(t);
            bool isOpen = script.EcgChanges.Count % 2 == 1;
            if (isOpen && !wasOpen)
            {
                script.Beat(t + 0.13);
            }

            wasOpen = isOpen;
        }

        int openings = (script.EcgChanges.Count + 1) / 2;
        Assert.That(openings, Is.InRange(30, 52), "at most every 12 s once doubtful");
    }
}
