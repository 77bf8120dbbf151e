// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Runtime.CompilerServices;
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>The trend over days: synthetic normal days around 125 mmHg, one spot a day unless said; seeds that took no part in any choice.</summary>
[TestFixture]
public sealed class PressureTrendTests
{
    private const int From = 10_000;
    private static readonly TrendSettings s_settings = TrendSettings.Create();

    // Days to a false alarm as set, 365 and 100, whatever the person's own deviation and correlation from day to day; means of 200 people have
    // a standard error of about 7 %. Correlated and steadier days are told later than asked for, never much sooner.
    [TestCase(365, 7.0, 0.0, 600)]
    [TestCase(365, 4.0, 0.0, 900)]
    [TestCase(365, 10.0, 0.0, 600)]
    [TestCase(365, 7.0, 0.2, 700)]
    [TestCase(365, 7.0, 0.4, 1100)]
    [TestCase(100, 7.0, 0.0, 170)]
    public void Add_NothingChanges_TellsAsSeldomAsAsked(int interval, double sd, double correlation, double most)
    {
        var lengths = new double[200];
        for (int i = 0; i < lengths.Length; i++)
        {
            lengths[i] = UntilTold(TrendSettings.Create(interval), 12_000 + i, sd, correlation, _ => 0, 6000).Days;
        }

        TestContext.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{lengths.Average():F0} days"));
        Assert.That(lengths.Average(), Is.InRange(0.8 * interval, most));
    }

    // After thirty normal days with an SD of 5 mmHg: step, days of its rise; most days until half have been told of it, and its size.
    [TestCase(10.0, 1, 6)]
    [TestCase(-10.0, 1, 6)]
    [TestCase(20.0, 1, 3)]
    [TestCase(10.0, 28, 22)]
    [TestCase(5.0, 1, 30)] // less than one deviation: found late, and by one in ten not at all
    public void Add_Change_IsToldWithItsSize(double mmHg, int rise, int median)
    {
        var told = new List<(int Days, double Size, double Later, int Began)>();
        for (int seed = 13_000; seed < 13_200; seed++)
        {
            (int Days, double Size, double Later, int Began) one = UntilTold(
                s_settings, seed, 5, 0, day => day < 30 ? 0 : Math.Min(1, (day - 29.0) / rise) * mmHg, 400);
            if (one.Days > 30)
            {
                told.Add(one);
            }
        }

        int[] delays = [.. told.Select(t => t.Days - 30).Order()];
        double size = told.Average(t => t.Size);
        TestContext.Out.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{told.Count}: median {delays[delays.Length / 2]}, 90 % {delays[delays.Length * 9 / 10]} days, size {size:F1}, later {told.Average(t => t.Later):F1}, began {told.Average(t => t.Began - 30):F1}"));
        Assert.That(told, Has.Count.GreaterThan(190), "few were told of a change before there was one");
        Assert.That(delays[delays.Length / 2], Is.LessThanOrEqualTo(median));
        if (rise == 1 && Math.Abs(mmHg) >= 10)
        {
            // Size is a mean from the estimated begin on: a day or two too many thin it out at first, less so ten days later.
            Assert.That(size, Is.EqualTo(mmHg).Within(0.25 * Math.Abs(mmHg)));
            Assert.That(told.Average(t => t.Later), Is.EqualTo(mmHg).Within(0.12 * Math.Abs(mmHg)));
            Assert.That(told.Average(t => t.Began - 30), Is.EqualTo(0).Within(2.5));
        }
    }

    // Mornings of 130, evenings of 120 mmHg, one or the other by chance: hours of the day are no change.
    [Test]
    public void Add_ChangingHours_AreNoChange()
    {
        int told = 0;
        for (int seed = 9000; seed < 9050; seed++)
        {
            var random = new Random(seed);
            var run = new TrendRun(s_settings);
            for (int day = 0; day < 90; day++)
            {
                bool isMorning = random.Next(100) < (day < 45 ? 70 : 10);
                run.Spot(From + day, isMorning ? 7 : 20, (isMorning ? 130 : 120) + (4 * RunLengths.Draw(random)));
            }

            told += run.First is null ? 0 : 1;
        }

        // 76 days at one false alarm in 365 days: 19 % of 50 people by chance; without the hours nearly all.
        Assert.That(told, Is.LessThan(18));
    }

    [Test]
    public void Add_ManySpotsOfADay_CountAsOneDay()
    {
        var one = new TrendRun(s_settings);
        var many = new TrendRun(s_settings);
        var random = new Random(9100);
        for (int day = 0; day < 60; day++)
        {
            double value = 120 + (4 * RunLengths.Draw(random)) + (day >= 40 ? 12 : 0);
            one.Spot(From + day, 8, value);
            for (int i = -10; i <= 10; i++)
            {
                many.Spot(From + day, 8 + (i * 0.05), value + i);
            }
        }

        Assert.That(one.First, Is.Not.Null);
        Assert.That(many.First!.Value.Day, Is.EqualTo(one.First!.Value.Day));
        Assert.That(many.Trend.Days, Is.EqualTo(one.Trend.Days));
        Assert.That(many.Told, Is.EqualTo(one.Told), "told once a day");
    }

    [Test]
    public void Add_MissingDays_AreNoDays()
    {
        var every = new TrendRun(s_settings);
        var third = new TrendRun(s_settings);
        var random = new Random(9200);
        for (int day = 0; day < 60; day++)
        {
            double value = 120 + (4 * RunLengths.Draw(random)) + (day >= 40 ? 12 : 0);
            every.Spot(From + day, 8, value);
            third.Spot(From + (day * 3), 8, value);
        }

        (int Day, Reading Reading, int BeganDay) first = every.First!.Value;
        Assert.That(third.First!.Value.Reading.ValueMilli, Is.EqualTo(first.Reading.ValueMilli));
        Assert.That(third.First!.Value.Day - From, Is.EqualTo(3 * (first.Day - From)));
        Assert.That(third.First!.Value.BeganDay - From, Is.EqualTo(3 * (first.BeganDay - From)));
        Assert.That(first.Reading.WindowTicks256, Is.EqualTo((first.Day - first.BeganDay) * 86_400L * 256_000), "reaches back to where it began");
        Assert.That(first.Reading.Kind, Is.EqualTo(ReadingKind.PressureTrend));
        Assert.That(first.Reading.Quality, Is.GreaterThanOrEqualTo(128), "half at the threshold");
    }

    [Test]
    public void Add_SpotsNotAtRestOrWithoutTrust_DoNotCount()
    {
        var calm = new TrendRun(s_settings);
        var busy = new TrendRun(s_settings);
        var random = new Random(9300);
        for (int day = 0; day < 60; day++)
        {
            double value = 120 + (4 * RunLengths.Draw(random));
            calm.Spot(From + day, 8, value, 60);
            busy.Spot(From + day, 8, value, 60);
            busy.Spot(From + day, 9, value + 40, 95);
            busy.Spot(From + day, 10, value + 40, 60, quality: 0);
        }

        Assert.That(busy.Trend.ChangeMilli, Is.EqualTo(calm.Trend.ChangeMilli));
        Assert.That(busy.Trend.Days, Is.EqualTo(calm.Trend.Days));
    }

    // 0.5 mmHg for each bpm; the usual rate is learned from the readings.
    [Test]
    public void Add_RateTerm_TakesOffWhatTheRateDoes()
    {
        var plain = new TrendRun(s_settings);
        var corrected = new TrendRun(s_settings with { PerBpmMilli = 500 });
        var random = new Random(9400);
        for (int day = 0; day < 60; day++)
        {
            double bpm = 60 + (day >= 30 ? 14 : 0);
            double value = 120 + (2 * RunLengths.Draw(random)) + (0.5 * (bpm - 60));
            plain.Spot(From + day, 8, value, bpm);
            corrected.Spot(From + day, 8, value, bpm);
        }

        Assert.That(plain.First, Is.Not.Null);
        Assert.That(corrected.First?.Day ?? int.MaxValue, Is.GreaterThan(plain.First!.Value.Day + 5));
    }

    [Test]
    public void Add_ChangeThatPasses_IsNoLongerTold()
    {
        var run = new TrendRun(s_settings);
        var random = new Random(9500);
        int toldAtEnd = 0;
        for (int day = 0; day < 120; day++)
        {
            run.Spot(From + day, 8, 120 + (3 * RunLengths.Draw(random)) + (day is >= 40 and < 60 ? 15 : 0));
            toldAtEnd = day == 80 ? run.Told : toldAtEnd;
        }

        Assert.That(run.First!.Value.Day - From, Is.InRange(41, 45));
        Assert.That(run.Told, Is.InRange(15, 30).And.EqualTo(toldAtEnd));
        Assert.That(run.Trend.IsTold, Is.False);
    }

    [Test]
    public void Trend_State_TakesAFewWords() => Assert.That(Unsafe.SizeOf<PressureTrend>(), Is.LessThanOrEqualTo(100));

    private static (int Days, double Size, double Later, int Began) UntilTold(
        TrendSettings settings, int seed, double sd, double correlation, Func<int, double> change, int most)
    {
        var random = new Random(seed);
        var run = new TrendRun(settings);
        double state = RunLengths.Draw(random);
        for (int day = 0; day < most; day++)
        {
            run.Spot(From + day, 8, 125 + change(day) + (sd * state));
            state = (correlation * state) + (Math.Sqrt(1 - (correlation * correlation)) * RunLengths.Draw(random));
            if (run.First is { } first && day >= first.Day - From + 10)
            {
                return (first.Day - From, first.Reading.ValueMilli / 1000.0, run.Trend.ChangeMilli / 1000.0, first.BeganDay - From);
            }
        }

        return (most, 0, 0, 0);
    }
}
