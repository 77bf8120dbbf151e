// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class HeartRateTests
{
    private const int Ms = 256; // 1/256 ticks in a millisecond of a clock of 1 kHz
    private static readonly CommonClock s_clock = new(1000);

    [Test]
    public void Add_IntervalsOf800Ms_Is75BpmFromTheFourthOn()
    {
        HeartRate rate = Started();
        for (int i = 0; i < 12; i++)
        {
            Assert.That(rate.Add((5000 + (800 * i)) * Ms, i == 0, 200), Is.EqualTo(i >= 4), $"beat {i}");
            if (i >= 4)
            {
                int used = Math.Min(i, 8);
                Assert.That(rate.Latest, Is.EqualTo(new Reading(
                    ReadingKind.HeartRateEcg, 75_000, (byte)(200 * used / 8), (5000 + (800 * i)) * Ms, used * 800 * Ms)));
            }
        }
    }

    // Of a few, all within 3/16 of their median: 150 of 800 ms.
    [TestCase(945, true)]
    [TestCase(955, false)]
    [TestCase(655, true)]
    [TestCase(645, false)]
    public void Add_OneOfFourIsOdd_IsGivenWithinThreeSixteenths(int oddMs, bool isGiven)
    {
        HeartRate rate = Started();
        long t = 5000;
        rate.Add(t * Ms, true, 255);
        bool last = false;
        foreach (int interval in new[] { 800, oddMs, 800, 800 })
        {
            t += interval;
            last = rate.Add(t * Ms, false, 255);
        }

        Assert.That(last, Is.EqualTo(isGiven));
    }

    [Test]
    public void Add_AfterAGap_GivesNothingAcrossIt()
    {
        HeartRate rate = Started();
        var given = new List<int>();
        for (int i = 0; i < 18; i++)
        {
            if (rate.Add((i * 600) * Ms, i is 0 or 9, 255))
            {
                given.Add(i);
                Assert.That(rate.RateMilliBpm, Is.EqualTo(100_000));
                Assert.That(rate.Latest.WindowTicks256, Is.LessThanOrEqualTo((i >= 9 ? i - 9 : i) * 600 * Ms));
            }
        }

        Assert.That(given, Is.EqualTo(new[] { 4, 5, 6, 7, 8, 13, 14, 15, 16, 17 }));
    }

    // One interval of twice the usual length among regular ones: a beat was missed. 37.5 bpm of it must not get into any reading.
    [TestCase(new[] { 800, 800, 800, 800, 800, 800, 800, 800, 1600, 800, 800, 800, 800 })]
    // An extra beat cuts one interval in two.
    [TestCase(new[] { 800, 800, 800, 800, 800, 800, 800, 800, 300, 500, 800, 800, 800, 800 })]
    public void Add_DetectorsMistake_IsInNoReadingAndFourIntervalsLaterAllIsWell(int[] intervals)
    {
        HeartRate rate = Started();
        long t = 0;
        rate.Add(t, true, 255);
        bool last = false;
        int given = 0;
        foreach (int interval in intervals)
        {
            t += interval;
            last = rate.Add(t * Ms, false, 255);
            given += last ? 1 : 0;
            Assert.That(rate.RateMilliBpm, Is.AnyOf(0, 75_000));
        }

        Assert.That(last, Is.True);
        Assert.That(rate.Latest.WindowTicks256, Is.EqualTo(3200 * Ms));
        Assert.That(given, Is.GreaterThanOrEqualTo(6));
    }

    // Early beat and pause: there are as many beats as before, so the rate over the window is the true one and the reading goes on
    // (but for the early beat itself, which might be one too many).
    [Test]
    public void Add_EctopicBeatWithItsPause_StaysInTheReading()
    {
        HeartRate rate = Started();
        int[] intervals = [800, 800, 800, 800, 800, 800, 500, 1100, 800, 800];
        long t = 0;
        rate.Add(0, true, 255);
        for (int i = 0; i < intervals.Length; i++)
        {
            t += intervals[i];
            Assert.That(rate.Add(t * Ms, false, 255), Is.EqualTo(i >= 3 && i != 6));
        }

        Assert.That(rate.RateMilliBpm, Is.EqualTo(75_000));
        Assert.That(rate.Latest.Quality, Is.EqualTo(255 - (255 / 4)));
    }

    // Twice the rate from one beat to the next: within four intervals the reading follows.
    [Test]
    public void Add_RateDoubles_FollowsWithoutDelay()
    {
        HeartRate rate = Started();
        long t = 0;
        for (int i = 0; i < 30; i++)
        {
            t += i < 15 ? 1000 : 500;
            rate.Add(t * Ms, i == 0, 255);
        }

        Assert.That(rate.RateMilliBpm, Is.EqualTo(120_000));
    }

    // The definition, in doubles: 60 n / (last − first) over the window that the reading names.
    [TestCase(1000)]
    [TestCase(256_000)]
    [TestCase(1_000_000_000)]
    public void Add_RandomIntervals_IsTheRateOverTheNamedWindow(long ticksPerSecond)
    {
        var random = new Random(11);
        var rate = new HeartRate();
        rate.Start(new CommonClock(ticksPerSecond), ReadingKind.HeartRatePulse);
        var beats = new List<double>();
        double t = 1;
        int given = 0;
        for (int i = 0; i < 3000; i++)
        {
            t += 0.25 + (1.5 * random.NextDouble());
            long ticks256 = (long)(t * 256 * ticksPerSecond);
            bool isGap = i == 0 || random.NextDouble() < 0.03;
            if (isGap)
            {
                beats.Clear();
            }

            beats.Add(ticks256 / 256.0 / ticksPerSecond);
            if (rate.Add(ticks256, isGap, 255))
            {
                given++;
                double window = rate.Latest.WindowTicks256 / 256.0 / ticksPerSecond;
                int used = beats.Count(b => b > beats[^1] - window - 1e-4) - 1;
                Assert.That(used, Is.InRange(4, 8));
                Assert.That(window, Is.EqualTo(beats[^1] - beats[^(used + 1)]).Within(1e-6));
                Assert.That(rate.RateMilliBpm, Is.EqualTo(60_000 * used / window).Within(0.51));
                Assert.That(rate.Latest.Kind, Is.EqualTo(ReadingKind.HeartRatePulse));
            }
        }

        Assert.That(given, Is.GreaterThan(2000));
    }

    [Test]
    public void Add_SilenceOfMoreThanSixSeconds_EndsTheRun()
    {
        HeartRate rate = Started();
        int[] times = [0, 1000, 2000, 3000, 4000, 10_001, 11_001];
        bool isGiven = false;
        foreach (int t in times)
        {
            isGiven = rate.Add(t * Ms, t == 0, 255);
        }

        Assert.That(isGiven, Is.False);
    }

    // Beats at 0, 0.5, 1.1, 1.8, 2.6 and 3.5 s.
    [TestCase(0, 3500, 85_714)]
    [TestCase(400, 3500, 80_000)]
    [TestCase(0, 3400, 92_308)]
    [TestCase(1000, 3500, 75_000)]
    [TestCase(1200, 3500, 0, Description = "two intervals are too few")]
    public void RateWithin_IsOfWholeIntervalsInThere(int fromMs, int untilMs, int expectedMilli)
    {
        HeartRate rate = Started();
        int t = 0;
        rate.Add(t, true, 255);
        foreach (int interval in new[] { 500, 600, 700, 800, 900 })
        {
            t += interval;
            rate.Add(t * Ms, false, 255);
        }

        Assert.That(rate.RateWithin(fromMs * Ms, untilMs * Ms, out _), Is.EqualTo(expectedMilli));
        Assert.That(rate.LastTicks256, Is.EqualTo(3500 * Ms));
    }

    // Nine intervals of which eight are kept: they begin at 600 ms.
    [TestCase(8, 0, false, Description = "not all eight are there")]
    [TestCase(9, 599, true)]
    [TestCase(9, 600, false)]
    public void BeginsAfter_IsOfEightKeptIntervals(int count, int placeMs, bool expected)
    {
        HeartRate rate = Started();
        rate.Add(0, true, 255);
        for (int i = 1; i < count; i++)
        {
            rate.Add(i * 600 * Ms, false, 255);
        }

        rate.Add(count * 600 * Ms, count == 8, 255);
        Assert.That(rate.BeginsAfter(placeMs * Ms), Is.EqualTo(expected));
    }

    // A count that no reading would be made of, or of few beats in a short time, is no witness.
    [TestCase("600 600 600 600 600 600 600 600", 4800, true)]
    [TestCase("600 600 600 600 600 600 600 600", 2400, false, Description = "four intervals in 2.4 s")]
    [TestCase("400 400 400 400 400 400 400 400", 2400, true, Description = "six in 2.4 s")]
    [TestCase("600 600 250 350 600 600 600 600", 4200, false, Description = "one too many among them")]
    [TestCase("600 250 350 600 600 600 600 600", 3000, true, Description = "one too many before them")]
    [TestCase("1100 1100 1100", 3300, false, Description = "three are not judged")]
    public void RateWithin_IsSure_OnlyOfWhatWouldBeRead(string intervals, int lengthMs, bool expected)
    {
        HeartRate rate = Started();
        int t = 0;
        rate.Add(t, true, 255);
        foreach (string interval in intervals.Split(' '))
        {
            t += int.Parse(interval, System.Globalization.CultureInfo.InvariantCulture);
            rate.Add(t * Ms, false, 255);
        }

        Assert.That(rate.RateWithin((t - lengthMs) * Ms, t * Ms, out bool isSure), Is.Positive);
        Assert.That(isSure, Is.EqualTo(expected));
    }

    // Three false beats about an ectopic one drag the median down with them; eight intervals then last half of one less than eight usual ones.
    [Test]
    public void Add_MiscountThatHidesWhatIsUsual_IsInNoReading()
    {
        HeartRate rate = Started();
        int t = 0;
        rate.Add(t, true, 255);
        int given = 0;
        foreach (int interval in new[] { 529, 535, 531, 530, 530, 529, 535, 531, 306, 441, 456, 366, 538, 538, 530, 527, 530, 530, 530, 530, 530 })
        {
            t += interval;
            if (rate.Add(t * Ms, false, 255))
            {
                given++;
                Assert.That(rate.RateMilliBpm, Is.EqualTo(113_000).Within(4000), $"at {t} ms");
            }
        }

        Assert.That(given, Is.GreaterThan(8));
    }

    // Where nothing is usual, every beat counts: one that was found by looking back makes the rate of eight uncertain.
    [TestCase(255, true)]
    [TestCase(65, true)]
    [TestCase(64, false)]
    public void Add_IrregularRhythm_IsReadOfSureBeatsOnly(byte quality, bool expected)
    {
        HeartRate rate = Started();
        int t = 0;
        rate.Add(t, true, 255);
        bool isGiven = false;
        foreach (int interval in new[] { 700, 1100, 620, 980, 540, 900, 1200, 760, 640, 1040 })
        {
            t += interval;
            isGiven = rate.Add(t * Ms, false, interval == 540 ? quality : (byte)255);
        }

        Assert.That(isGiven, Is.EqualTo(expected));
    }

    // Known until eight beats after: the false beat of the test above is told in the rates themselves.
    [Test]
    public void Add_FalseBeatAmongEarlyOnes_IsInNoReading()
    {
        HeartRate rate = Started();
        long t = 0;
        rate.Add(t, true, 255);
        int given = 0;
        foreach (int interval in new[] { 913, 921, 937, 915, 882, 884, 913, 913, 635, 1000, 520, 666, 593, 918, 938, 915, 899, 915 })
        {
            t += interval;
            if (rate.Add(t * Ms, false, 255))
            {
                given++;
                Assert.That(rate.RateMilliBpm, Is.InRange(63_000, 70_000), $"at {t} ms");
            }
        }

        Assert.That(given, Is.GreaterThan(6));
    }

    private static HeartRate Started()
    {
        var rate = new HeartRate();
        rate.Start(s_clock, ReadingKind.HeartRateEcg);
        return rate;
    }
}
