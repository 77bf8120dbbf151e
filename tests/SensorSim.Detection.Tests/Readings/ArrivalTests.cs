// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class ArrivalTests
{
    // 250 and 100 Hz on a clock of 500 Hz. R at 1000 + 128/256 samples = 4002 ms; foot at 424 + 64/256 samples = 4242.5 ms.
    [TestCase(true)]
    [TestCase(false)]
    public void Add_RPeakAndFoot_IsTheirDistanceInEitherOrder(bool peakFirst)
    {
        Arrival arrival = OnClock(0);
        var peak = new SamplePosition(1000, 128);
        var foot = new SamplePosition(424, 64);
        Assert.That(peakFirst ? arrival.AddRPeak(peak) : arrival.AddFoot(foot), Is.False);
        Assert.That(peakFirst ? arrival.AddFoot(foot) : arrival.AddRPeak(peak), Is.True);
        Assert.That(arrival.TimeUs, Is.EqualTo(240_500));
        Assert.That(arrival.RPeak, Is.EqualTo(peak));
        Assert.That(arrival.Foot, Is.EqualTo(foot));
        Assert.That(arrival.Latest.Ticks256, Is.EqualTo(foot.In256 * 5));
    }

    [Test]
    public void Add_OpticalChainLater_TakesItsDelayOff()
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
    public void Add_EdgesOfTheWindow_Are80And450Ms(int footSample, bool isPair)
    {
        Arrival arrival = OnClock(0);
        arrival.AddRPeak(new SamplePosition(1000, 0));
        Assert.That(arrival.AddFoot(new SamplePosition(footSample, 0)), Is.EqualTo(isPair));
    }

    [Test]
    public void Add_TwoFeetInReach_TakesTheFirstAndOnlyOnce()
    {
        Arrival arrival = OnClock(0);
        arrival.AddFoot(new SamplePosition(420, 0));
        arrival.AddFoot(new SamplePosition(440, 0));
        Assert.That(arrival.AddRPeak(new SamplePosition(1000, 0)), Is.True);
        Assert.That(arrival.TimeUs, Is.EqualTo(200_000));
        Assert.That(arrival.AddFoot(new SamplePosition(442, 0)), Is.False);
    }

    // 230 ms, median of the last eight 210 ms: 20 ms pass. 236 ms do not, and are not part of the median.
    [Test]
    public void Add_FarFromTheMedian_IsLeftOut()
    {
        Arrival arrival = OnClock(0);
        int[] timesMs = [210, 208, 212, 210, 210, 240, 230, 184, 210];
        bool[] isGiven = [true, true, true, true, true, false, true, false, true];
        for (int i = 0; i < timesMs.Length; i++)
        {
            Assert.That(Beat(ref arrival, i, timesMs[i]), Is.EqualTo(isGiven[i]), $"beat {i}");
            Assert.That(arrival.IsOutlier, Is.EqualTo(!isGiven[i]));
        }

        Assert.That(arrival.TimeUs, Is.EqualTo(210_000));
    }

    [Test]
    public void Add_FourFarOnesThatAgree_AreTheNewLevel()
    {
        Arrival arrival = OnClock(0);
        int[] timesMs = [210, 210, 210, 210, 210, 250, 248, 252, 250, 250, 210, 252];
        bool[] isGiven = [true, true, true, true, true, false, false, false, true, true, false, true];
        for (int i = 0; i < timesMs.Length; i++)
        {
            Assert.That(Beat(ref arrival, i, timesMs[i]), Is.EqualTo(isGiven[i]), $"beat {i}");
        }
    }

    [Test]
    public void Add_FarOnesThatDiffer_NeverMakeALevel()
    {
        Arrival arrival = OnClock(0);
        int[] far = [260, 300, 340, 270, 320, 380, 120];
        for (int i = 0; i < 60; i++)
        {
            int timeMs = i < 6 ? 200 : far[i % far.Length];
            Assert.That(Beat(ref arrival, i, timeMs), Is.EqualTo(i < 6), $"beat {i}");
        }
    }

    [Test]
    public void Latest_Quality_IsTheWorseOfBothLessTheDistance()
    {
        Arrival arrival = OnClock(0);
        for (int i = 0; i < 8; i++)
        {
            Beat(ref arrival, i, 200, 150, 240);
        }

        Assert.That(arrival.Latest.Quality, Is.EqualTo(150));
        Beat(ref arrival, 8, 208, 150, 240);
        Assert.That(arrival.Latest.Quality, Is.EqualTo(150 - (8000 / 128)));
        Beat(ref arrival, 9, 200, 240, 90);
        Assert.That(arrival.Latest.Quality, Is.EqualTo(90));
    }

    [Test]
    public void TakeUnpaired_BeatWithoutPulse_IsToldOnceANextFootIsBeyondIt()
    {
        Arrival arrival = OnClock(0);
        Beat(ref arrival, 0, 200);
        Assert.That(arrival.TakeUnpaired(out _), Is.False);
        arrival.AddRPeak(Peak(1)); // no pulse
        Assert.That(arrival.TakeUnpaired(out _), Is.False);
        arrival.AddRPeak(Peak(2));
        Assert.That(arrival.TakeUnpaired(out _), Is.False);
        arrival.AddFoot(Foot(2, 200));
        Assert.That(arrival.TakeUnpaired(out long ticks256), Is.True);
        Assert.That(ticks256, Is.EqualTo(Peak(1).In256 * 2));
        Assert.That(arrival.TakeUnpaired(out _), Is.False);
    }

    // R peak at 800 ms. A foot up to 1250 ms is in reach, so only a later one proves that there is none.
    [TestCase(1260, true)]
    [TestCase(1250, false)]
    public void TakeUnpaired_FootJustBeyondReach_Tells(int footMs, bool isTold)
    {
        Arrival arrival = OnClock(0);
        arrival.AddRPeak(Peak(1));
        arrival.AddFoot(new SamplePosition(footMs / 10, 0));
        Assert.That(arrival.TakeUnpaired(out _), Is.EqualTo(isTold));
    }

    [Test]
    public void TakeUnpaired_NoPulsesAtAll_TellsEachBeatOnce()
    {
        Arrival arrival = OnClock(0);
        var told = new List<long>();
        for (int i = 0; i < 50; i++)
        {
            arrival.AddRPeak(Peak(i));
            while (arrival.TakeUnpaired(out long ticks256))
            {
                told.Add(ticks256);
            }
        }

        Assert.That(told, Is.EqualTo(Enumerable.Range(0, told.Count).Select(i => Peak(i).In256 * 2)));
        Assert.That(told, Has.Count.GreaterThan(46));
    }

    // Any order in which both channels can tell their events gives the same times.
    [Test]
    public void Add_EventsToldLate_PairsTheSame()
    {
        var random = new Random(9);
        var events = new List<(double ToldMs, bool IsPeak, int Beat, int TimeMs)>();
        for (int i = 0; i < 500; i++)
        {
            int timeMs = 200 + random.Next(20);
            events.Add(((i * 800) + 280 + (random.Next(4) == 0 ? 700 : 100 * random.NextDouble()), true, i, timeMs));
            events.Add(((i * 800) + timeMs + 190 + (150 * random.NextDouble()), false, i, timeMs));
        }

        Arrival arrival = OnClock(0);
        int given = 0;
        foreach ((double _, bool isPeak, int beat, int timeMs) in events.OrderBy(e => e.ToldMs))
        {
            if (isPeak ? arrival.AddRPeak(Peak(beat)) : arrival.AddFoot(Foot(beat, timeMs)))
            {
                given++;
                Assert.That(arrival.TimeUs, Is.EqualTo(timeMs * 1000).Within(20));
            }
        }

        Assert.That(given, Is.EqualTo(500));
    }

    private static SamplePosition Peak(int beat) => new(200L * beat, 0);

    private static SamplePosition Foot(int beat, int timeMs) => SamplePosition.From256((long)Math.Round(((800.0 * beat) + timeMs) / 10 * 256));

    private static bool Beat(ref Arrival arrival, int beat, int timeMs, byte peakQuality = 255, byte footQuality = 255) =>
        arrival.AddRPeak(Peak(beat), peakQuality) | arrival.AddFoot(Foot(beat, timeMs), footQuality);

    private static Arrival OnClock(long opticalDelay256)
    {
        var arrival = new Arrival();
        arrival.Start(500, 2, 5, opticalDelay256);
        return arrival;
    }
}
