// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests;

/// <summary>The integer band-pass against the closed form of its parts: boxes give sin(π f n / fs) / sin(π f / fs), the difference 4 sin²(π f d / fs).</summary>
[TestFixture]
public sealed class BandPassTests
{
    [TestCase(2)]
    [TestCase(5)]
    [TestCase(8)]
    [TestCase(12)]
    [TestCase(17)]
    [TestCase(25)]
    [TestCase(40)]
    public void Next_Sine_HasTheGainAndDelayOfTheClosedForm(double hz)
    {
        const int RateHz = 250;
        BeatWindows w = BeatWindows.ForRate(RateHz);
        var filter = new BandPass();
        filter.Restart(w, 0);
        double omega = 2 * Math.PI * hz / RateHz;
        double Box(int n) => Math.Sin(omega * n / 2) / Math.Sin(omega / 2);
        double gain = Box(w.FirstSum) * Box(w.SecondSum) * -4 * Math.Pow(Math.Sin(omega * w.Arm / 2), 2);
        double delay = ((w.FirstSum + w.SecondSum - 2) / 2.0) + w.Arm;
        const double Amplitude = 100_000;
        double largest = 0;
        for (int i = 0; i < 2000; i++)
        {
            int output = filter.Next((int)Math.Round(Amplitude * Math.Sin(omega * i)));
            if (i > 200)
            {
                largest = Math.Max(largest, Math.Abs(output - (gain * Amplitude * Math.Sin(omega * (i - delay)))));
            }
        }

        // Rounding of the input, half a code, through the sum of the weights' magnitudes: 4 × first × second sum.
        Assert.That(w.SumShift, Is.Zero);
        Assert.That(largest, Is.LessThan(2.0 * w.FirstSum * w.SecondSum));
    }

    [Test]
    public void Next_Mains_IsAZeroOfTheFirstSum()
    {
        // 20 ms at 250 Hz are 5 samples: the zeros of the sum lie at multiples of 50 Hz.
        BeatWindows w = BeatWindows.ForRate(250);
        Assert.That(w.FirstSum, Is.EqualTo(5));
        var filter = new BandPass();
        filter.Restart(w, 0);
        int largest = 0;
        for (int i = 0; i < 1000; i++)
        {
            int output = filter.Next((int)Math.Round(100_000 * Math.Sin(2 * Math.PI * 50 * i / 250)));
            largest = i > 100 ? Math.Max(largest, Math.Abs(output)) : 0;
        }

        Assert.That(largest, Is.LessThan(50));
    }

    [TestCase(100)]
    [TestCase(250)]
    [TestCase(512)]
    [TestCase(513)]
    [TestCase(1000)]
    public void Next_FullScaleInStepWithTheArms_DoesNotWrap(int rateHz)
    {
        BeatWindows w = BeatWindows.ForRate(rateHz);
        var filter = new BandPass();
        int rail = 8_388_607 * w.Decimation;
        filter.Restart(w, -rail);
        long best = long.MinValue;
        for (int i = 0; i < 8 * w.Arm; i++)
        {
            // Both outer arms high, the middle one low: the worst case of the second difference.
            best = Math.Max(best, filter.Next(i / w.Arm % 2 == 0 ? rail : -rail));
        }

        double boxes = (double)w.FirstSum * w.SecondSum / (1 << w.SumShift);
        Assert.That(best, Is.GreaterThan(0));
        Assert.That(boxes * 4 * rail, Is.LessThan(Math.Pow(2, 31)));
    }
}
