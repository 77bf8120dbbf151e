// SPDX-License-Identifier: MIT
using MathNet.Numerics;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class PulseStageTests
{
    [TestCase(2)]
    [TestCase(5)]
    [TestCase(10)]
    public void Find_AnySamples_IsTheLargestSecondDerivativeOfTheFittedParabola(int arm)
    {
        var random = new Random(arm);
        var held = new Word256();
        for (int i = 0; i < 256; i++)
        {
            held[i] = random.Next(-8000, 8000);
        }

        double Second(int at)
        {
            double[] x = [.. Enumerable.Range(-arm, (2 * arm) + 1).Select(k => (double)k)];
            double[] y = [.. x.Select(k => (double)held[at + (int)k])];
            return Fit.Polynomial(x, y, 2)[2];
        }

        const int From = 150;
        int expected = Enumerable.Range(0, 31).MaxBy(i => Second(From - i));
        NoProbe probe = default;
        int found = CurvatureFoot.Find(held, From, 30, arm, 0, ref probe);
        Assert.That(expected, Is.InRange(1, 30), "a maximum inside");
        Assert.That(-found / 256.0, Is.EqualTo(expected).Within(0.51));
    }

    [Test]
    public void OfEight_AnyNumbers_IsTheirOrder()
    {
        var random = new Random(3);
        for (int round = 0; round < 200; round++)
        {
            var values = new Word8();
            var all = new int[8];
            for (int i = 0; i < 8; i++)
            {
                all[i] = random.Next(-4, 5);
                values[i] = all[i];
            }

            int[] sorted = [.. all.Order()];
            for (int rank = 0; rank < 8; rank++)
            {
                Assert.That(Ranks.OfEight(values, rank), Is.EqualTo(sorted[rank]));
            }
        }
    }

    [Test]
    public void Marks_AreClearedWhenTheirPlaceIsTakenAgain()
    {
        var marks = new SampleMarks();
        Assert.That(marks.IsActive, Is.False);
        marks.Put(40, true);
        Assert.That(marks.CountClear(35, 20), Is.EqualTo(5));
        for (int i = 41; i < 41 + 255; i++)
        {
            Assert.That(marks.IsActive, Is.True);
            marks.Put(i & 255, false);
        }

        Assert.That(marks.CountClear(35, 20), Is.EqualTo(5));
        marks.Put(40, false);
        Assert.That(marks.CountClear(35, 20), Is.EqualTo(20));
        Assert.That(marks.IsActive, Is.False);
    }

    [TestCase(100, 1400, 0)]
    [TestCase(100, 720, 0)]
    [TestCase(100, 700, 1)]
    [TestCase(100, 440, 1)]
    [TestCase(100, 420, 2)]
    [TestCase(100, 0, 1)]
    public void FitFor_RiseTime_TakesTheLongestOfSeventyPercent(int rateHz, int riseTenthsMs, int expected)
    {
        // Half-widths of 50, 30 and 20 ms at 100 Hz; rise in 1/16 sample of 10 ms.
        PulseWindows windows = PulseWindows.ForRate(rateHz);
        Assert.That(windows.FitFor(riseTenthsMs * 16 / 100), Is.EqualTo(expected));
    }
}
