// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class ReadingsTests
{
    [Test]
    public void HeartRate_EightIntervalsOf800Ms_Is75Bpm()
    {
        var rate = new HeartRate();
        rate.Start(250);
        for (int i = 0; i < 12; i++)
        {
            bool isGiven = rate.Add(Beat(1000 + (200 * i), 0, i == 0));
            Assert.That(isGiven, Is.EqualTo(i >= 8), $"beat {i}");
        }

        Assert.That(rate.RateMilliBpm, Is.EqualTo(75_000));
        Assert.That(rate.WindowSamples, Is.EqualTo(1600));
    }

    [Test]
    public void HeartRate_AfterAGap_WaitsForEightIntervals()
    {
        var rate = new HeartRate();
        rate.Start(250);
        int given = 0;
        for (int i = 0; i < 18; i++)
        {
            given += rate.Add(Beat(200 * i, 0, i is 0 or 9)) ? 1 : 0;
        }

        Assert.That(given, Is.EqualTo(2));
    }

    // 250 and 100 Hz on a clock of 500 Hz. R at 1000 + 128/256 samples = 4002 ms; foot at 424 + 64/256 samples = 4242.5 ms.
    [TestCase(true)]
    [TestCase(false)]
    public void Arrival_RPeakAndFoot_IsTheirDistanceInEitherOrder(bool peakFirst)
    {
        Arrival arrival = OnClock(0);
        var peak = new SamplePosition(1000, 128);
        var foot = new SamplePosition(424, 64);
        Assert.That(peakFirst ? arrival.AddRPeak(peak) : arrival.AddFoot(foot), Is.False);
        Assert.That(peakFirst ? arrival.AddFoot(foot) : arrival.AddRPeak(peak), Is.True);
        Assert.That(arrival.TimeUs, Is.EqualTo(240_500));
        Assert.That(arrival.RPeak, Is.EqualTo(peak));
        Assert.That(arrival.Foot, Is.EqualTo(foot));
    }

    [Test]
    public void Arrival_OpticalChainLater_TakesItsDelayOff()
    {
        Arrival arrival = OnClock(256 * 5); // 5 ticks of 2 ms
        arrival.AddRPeak(new SamplePosition(1000, 128));
        arrival.AddFoot(new SamplePosition(424, 64));
        Assert.That(arrival.TimeUs, Is.EqualTo(230_500));
    }

    // R peak at 4000 ms; samples of 10 ms.
    [TestCase(407, false)]
    [TestCase(408, true)]
    [TestCase(445, true)]
    [TestCase(446, false)]
    public void Arrival_EdgesOfTheWindow_Are80And450Ms(int footSample, bool isPair)
    {
        Arrival arrival = OnClock(0);
        arrival.AddRPeak(new SamplePosition(1000, 0));
        Assert.That(arrival.AddFoot(new SamplePosition(footSample, 0)), Is.EqualTo(isPair));
    }

    [Test]
    public void Arrival_TwoFeetInReach_TakesTheFirstAndOnlyOnce()
    {
        Arrival arrival = OnClock(0);
        arrival.AddFoot(new SamplePosition(420, 0));
        arrival.AddFoot(new SamplePosition(440, 0));
        Assert.That(arrival.AddRPeak(new SamplePosition(1000, 0)), Is.True);
        Assert.That(arrival.TimeUs, Is.EqualTo(200_000));
        Assert.That(arrival.AddFoot(new SamplePosition(442, 0)), Is.False);
    }

    private static Arrival OnClock(long opticalDelay256)
    {
        var arrival = new Arrival();
        arrival.Start(500, 2, 5, opticalDelay256);
        return arrival;
    }

    private static BeatEvent Beat(long sample, byte fraction, bool startsRun) => new(new SamplePosition(sample, fraction), 1000, 255, startsRun, sample + 70);
}
