// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class ArrivalSpotTests
{
    private const long Second = 256_000;

    // Median, and quartiles with a straight line between the values (the usual definition; R type 7) over 1.349, in doubles.
    [TestCase(50, 4.0)]
    [TestCase(75, 8.0)]
    [TestCase(95, 1.0)]
    public void Add_RandomTimes_IsWhatDoublesSay(int rateBpm, double spreadMs)
    {
        var random = new Random(31);
        ArrivalSpot spot = Started();
        var all = new List<(double At, double Ms)>();
        double t = 3;
        int given = 0;
        for (int i = 0; i < 1000; i++)
        {
            t += 60.0 / rateBpm * (0.95 + (0.1 * random.NextDouble()));
            double ms = 215 + (spreadMs * SyntheticEcg.Normal(random));
            if (spot.Add(At(t, ms)))
            {
                given++;
                double end = spot.Latest.Ticks256 / (double)Second;
                double begin = end - (spot.Latest.WindowTicks256 / (double)Second);
                double[] inside = [.. all.Where(a => a.At >= begin - 1e-6 && a.At <= end + 1e-5).Select(a => a.Ms).Order()];
                Assert.That(inside, Has.Length.GreaterThanOrEqualTo(20));
                Assert.That(spot.Latest.ValueMilli / 1000.0, Is.EqualTo(Quantile(inside, 0.5)).Within(0.01));
                Assert.That(spot.Spread.ValueMilli / 1000.0, Is.EqualTo((Quantile(inside, 0.75) - Quantile(inside, 0.25)) / 1.349).Within(0.02));
                double uncertainMs = 1.25 * spot.Spread.ValueMilli / 1000.0 / Math.Sqrt(inside.Length);
                Assert.That(spot.Latest.Quality, Is.EqualTo(255 - (32 * uncertainMs)).Within(1));
                Assert.That(spot.Spread.Kind, Is.EqualTo(ReadingKind.ArrivalSpread));
            }

            all.Add((t, ms));
        }

        Assert.That(given, Is.EqualTo((int)((t - 4) / 5)).Within(5));
        Assert.That(spot.Latest.WindowTicks256 / (double)Second, Is.InRange(28.5, 30));
    }

    // Contact may be lost behind the last pair: the reading stands at that pair, and not at all when the next is long in coming.
    [TestCase(2.0, true)]
    [TestCase(5.5, false)]
    public void Add_PairsStop_StandsAtTheLastOne(double pauseS, bool isGiven)
    {
        ArrivalSpot spot = Started();
        double last = 0;
        for (int i = 0; i < 28; i++)
        {
            last = 1 + i;
            spot.Add(At(last, 200));
        }

        last += 2.4;
        spot.Add(At(last, 200));
        Reading before = spot.Latest;
        bool isNew = spot.Add(At(last + pauseS, 200));
        Assert.That(isNew, Is.EqualTo(isGiven));
        Assert.That(spot.Latest, isGiven ? Is.Not.EqualTo(before) : Is.EqualTo(before));
        Assert.That(spot.Latest.Ticks256, isGiven ? Is.EqualTo((long)(last * Second)) : Is.LessThan((long)(last * Second)));
    }

    [Test]
    public void Add_FewerThanTwentyBeats_GivesNothing()
    {
        ArrivalSpot spot = Started();
        for (int i = 0; i < 60; i++)
        {
            Assert.That(spot.Add(At(1 + (i * 1.6), 200)), Is.False);
        }
    }

    // 180 beats a minute need more room than there is: the window shrinks, and says so.
    [Test]
    public void Add_FastBeats_NamesTheShorterWindow()
    {
        ArrivalSpot spot = Started();
        int given = 0;
        for (int i = 0; i < 600; i++)
        {
            // Every 5 s another level, so that a wrong window shows in the median.
            if (spot.Add(At(1 + (i / 3.0), 200 + (i / 15))))
            {
                given++;
                Assert.That(spot.Latest.WindowTicks256, Is.LessThanOrEqualTo(15 * Second).And.GreaterThanOrEqualTo((10 * Second) - (Second / 2)));
                double end = (spot.Latest.Ticks256 / (double)Second) - 1;
                double middle = end - (spot.Latest.WindowTicks256 / 2.0 / Second);
                Assert.That(spot.Latest.ValueMilli / 1000.0, Is.EqualTo(200 + (middle / 5) - 0.5).Within(1));
            }
        }

        Assert.That(given, Is.GreaterThan(35));
    }

    // Pauses leave blocks without a pair; when fast beats then fill every place, dropping an empty block makes no room.
    [Test]
    public void Add_FastBeatsAmongPauses_IsStillTheMedianOfItsWindow()
    {
        var random = new Random(5);
        ArrivalSpot spot = Started();
        var all = new List<(double At, double Ms)>();
        double t = 1;
        int given = 0;
        for (int i = 0; i < 20_000; i++)
        {
            t += random.Next(40) == 0 ? 5 + (12 * random.NextDouble()) : 0.35;
            double ms = 200 + (10 * random.NextDouble());
            if (spot.Add(At(t, ms)))
            {
                given++;
                double end = spot.Latest.Ticks256 / (double)Second;
                double begin = end - (spot.Latest.WindowTicks256 / (double)Second);
                double[] inside = [.. all.Where(a => a.At >= begin - 1e-6 && a.At <= end + 1e-5).Select(a => a.Ms).Order()];
                Assert.That(inside, Has.Length.InRange(20, 48));
                Assert.That(spot.Latest.ValueMilli / 1000.0, Is.EqualTo(Quantile(inside, 0.5)).Within(0.01));
            }

            all.Add((t, ms));
            if (all.Count > 200)
            {
                all.RemoveRange(0, 100);
            }
        }

        Assert.That(given, Is.GreaterThan(500));
    }

    [Test]
    public void Add_AfterALongSilence_StartsAfresh()
    {
        ArrivalSpot spot = Started();
        int given = 0;
        for (int i = 0; i < 80; i++)
        {
            bool isNew = spot.Add(At(i < 40 ? 1 + i : 1000 + i, i < 40 ? 200 : 250));
            given += isNew ? 1 : 0;
            if (i > 41 && isNew)
            {
                Assert.That(spot.Latest.ValueMilli, Is.EqualTo(250_000));
                Assert.That(i, Is.GreaterThanOrEqualTo(60));
            }
        }

        Assert.That(given, Is.GreaterThan(5));
        Assert.That(spot.Latest.ValueMilli, Is.EqualTo(250_000));
    }

    private static double Quantile(double[] sorted, double share)
    {
        double place = share * (sorted.Length - 1);
        int below = (int)Math.Floor(place);
        double rest = place - below;
        return rest == 0 ? sorted[below] : (sorted[below] * (1 - rest)) + (sorted[below + 1] * rest);
    }

    private static Reading At(double seconds, double ms) => new(ReadingKind.Arrival, (int)Math.Round(ms * 1000), 200, (long)(seconds * Second), 0);

    private static ArrivalSpot Started()
    {
        var spot = new ArrivalSpot();
        spot.Start(new CommonClock(1000));
        return spot;
    }
}
