// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

/// <summary>Bounds of counters and sums of the readings, where usual beats never come near them.</summary>
[TestFixture]
public sealed class ReadingBoundsTests
{
    // A first interval of nearly 3 s, as after two lost beats, and then a fast heart: the mean of equal intervals is the interval, their spread nothing.
    [TestCase(2.9, 0.214)]
    [TestCase(2.9, 0.3)]
    [TestCase(0.25, 2.8)]
    public void Variability_FirstIntervalFarFromTheRest_MeanIsThatOfTheMinute(double firstS, double thenS)
    {
        var variability = new RrVariability();
        variability.Start(new CommonClock(1000));
        double t = 1;
        for (int i = 0; i < 1200; i++)
        {
            variability.Add((long)Math.Round(t * 256_000), i == 0, true);
            t += i == 0 ? firstS : thenS;
        }

        Assert.That(variability.Mean.ValueMilli, Is.EqualTo(1_000_000 * thenS).Within(100));
        Assert.That(variability.Sdnn.ValueMilli, Is.LessThan(300));
    }

    // Rows of beats that break off before they are full, for hours: what they made is counted, and the count may not wrap. With overflow checking it would end here.
    [Test]
    public void Respiration_RowsThatBreakOffForHours_FirstFullRowIsJudgedAtOnce()
    {
        var respiration = new Respiration();
        respiration.Start(new CommonClock(1000));
        double t = 1;
        for (int row = 0; row < 6; row++)
        {
            // 21 s make about 40 values; six rows 240, and the row that gets full wraps a count of 8 bits.
            for (int i = 0; i < 26; i++)
            {
                respiration.AddBeat((long)(t * 256_000), i == 0, 1000 + (int)(100 * Math.Sin(2 * Math.PI * t / 4)));
                t += 0.8 + (0.03 * Math.Sin(2 * Math.PI * t / 4));
            }

            t += 20;
        }

        double begin = t;
        double judgedAfter = 0;
        for (int i = 0; i < 80 && judgedAfter == 0; i++)
        {
            bool isNew = respiration.AddBeat((long)(t * 256_000), i == 0, 1000 + (int)(100 * Math.Sin(2 * Math.PI * t / 4)));
            judgedAfter = isNew ? t - begin : 0;
            t += 0.8 + (0.03 * Math.Sin(2 * Math.PI * t / 4));
        }

        // 64 values, two a second; the first interval begins a row.
        Assert.That(judgedAfter, Is.InRange(32, 35));
    }
}
