// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class RhythmCheckTests
{
    // Log-normal intervals without memory: fibrillation as the generator makes it, 15 % and more of spread (24 % is its default).
    [TestCase(0.15, 700, 0.8)]
    [TestCase(0.20, 500, 0.97)]
    [TestCase(0.24, 700, 0.99)]
    [TestCase(0.30, 900, 0.99)]
    public void IsIrregular_RandomIntervals_IsTrueMostOfTheTime(double spread, double meanMs, double share)
    {
        double sigma = Math.Sqrt(Math.Log(1 + (spread * spread)));
        var random = new Random(21);
        double irregular = Share(2000, _ => Math.Max(300, meanMs * Math.Exp((sigma * SyntheticEcg.Normal(random)) - (sigma * sigma / 2))));
        Assert.That(irregular, Is.GreaterThanOrEqualTo(share));
    }

    // Breathing moves the rate by up to a tenth, once a fifth, to each side, and slow waves with it.
    [TestCase(0.02, 4)]
    [TestCase(0.05, 3)]
    [TestCase(0.10, 4)]
    [TestCase(0.10, 6)]
    [TestCase(0.10, 10)]
    [TestCase(0.20, 4)] // only m = 2 knows this from chance
    public void IsIrregular_RespiratoryArrhythmia_IsFalse(double depth, double breathS)
    {
        var random = new Random(22);
        double irregular = Share(2000, t =>
            850 * (1 + (depth * Math.Sin(2 * Math.PI * t / breathS)) + (0.02 * Math.Sin(2 * Math.PI * t / 10)) + (0.005 * SyntheticEcg.Normal(random))));
        Assert.That(irregular, Is.Zero);
    }

    [TestCase(2)]
    [TestCase(3)]
    [TestCase(4)]
    public void IsIrregular_EveryNthBeatEarly_IsFalse(int n)
    {
        var random = new Random(23);
        int beat = 0;
        double early = 0;
        double irregular = Share(2000, _ =>
        {
            double usual = 800 + (10 * SyntheticEcg.Normal(random));
            beat++;
            early = beat % n == 0 ? usual * (0.6 + (0.02 * SyntheticEcg.Normal(random))) : early;
            return beat % n == 0 ? early : beat % n == 1 % n && beat > 1 ? 1600 - early : usual;
        });
        Assert.That(irregular, Is.Zero);
    }

    [TestCase(0.05)]
    [TestCase(0.10)]
    public void IsIrregular_RareEarlyBeats_IsFalse(double share) => Assert.That(Ectopy(share, true), Is.Zero);

    // As wide beats are told, their number does not matter.
    [TestCase(0.10)]
    [TestCase(0.15)]
    public void IsIrregular_EarlyBeatsToldAsWide_IsFalse(double share) => Assert.That(Ectopy(share, false), Is.Zero);

    [Test]
    public void Shut_WhileIrregular_TakesTheFlagBackUntilThirtyTwoIntervalsCame()
    {
        var random = new Random(24);
        RhythmCheck check = Started();
        double t = 0;
        while (!check.IsIrregular)
        {
            t += 0.4 + (0.8 * random.NextDouble());
            check.Add(At(t), false, true);
        }

        Assert.That(check.Shut(), Is.True);
        Assert.That(check.Shut(), Is.False);
        int beats = 0;
        while (!check.IsIrregular)
        {
            Assert.That(check.IsKnown, Is.EqualTo(beats > 32));
            t += 0.4 + (0.8 * random.NextDouble());
            check.Add(At(t), false, true);
            beats++;
        }

        Assert.That(beats, Is.InRange(37, 41));
    }

    // The same rule in doubles: matches within a twelfth of the mean, after one and after two that matched; every fourth beat, twice in a row.
    [Test]
    public void Add_RandomRhythms_DecidesAsInDoubles()
    {
        var random = new Random(27);
        RhythmCheck check = Started();
        var intervals = new List<double>();
        double t = 0;
        int votes = 0;
        bool isIrregular = false;
        int differing = 0;
        int irregular = 0;
        for (int i = 0; i <= 6000; i++)
        {
            double spread = 0.02 + (0.22 * Math.Abs(Math.Sin(i * 0.004)));
            double interval = Math.Round(0.8 * (1 + (spread * SyntheticEcg.Normal(random))) * 4000) / 4000;
            interval = Math.Max(0.3, interval);
            t += interval;
            check.Add(At(t), false, true);
            if (i > 0)
            {
                intervals.Add(interval);
            }

            if (intervals.Count >= 32 && intervals.Count % 4 == 0)
            {
                bool isAgainst = IsAgainst([.. intervals.TakeLast(32)], isIrregular);
                votes = isAgainst ? votes + 1 : 0;
                isIrregular ^= votes == 2;
                votes %= 2;
            }

            differing += check.IsIrregular != isIrregular ? 1 : 0;
            irregular += isIrregular ? 1 : 0;
        }

        Assert.That(irregular, Is.InRange(1500, 5000));
        Assert.That(differing, Is.LessThan(60)); // rounding of a twelfth of the mean
    }

    // Hysteresis: at the edge of the rule the flag must not flutter.
    [TestCase(0.10)]
    [TestCase(0.11)]
    [TestCase(0.12)]
    [TestCase(0.13)]
    public void Add_SpreadAtTheEdge_ChangesRarely(double spread)
    {
        var random = new Random(25);
        RhythmCheck check = Started();
        double t = 0;
        int changes = 0;
        for (int i = 0; i < 4000; i++)
        {
            t += 0.7 * (1 + (spread * SyntheticEcg.Normal(random)));
            changes += check.Add(At(t), i == 0, true) ? 1 : 0;
        }

        Assert.That(changes, Is.LessThan(4000 / 60));
    }

    private static bool IsAgainst(double[] rr, bool isIrregular)
    {
        double near = rr.Average() / 12;
        double one = 0;
        double two = 0;
        double asked = 0;
        double three = 0;
        for (int i = 0; i < 31; i++)
        {
            for (int j = i + 1; j < 31; j++)
            {
                bool first = Math.Abs(rr[i] - rr[j]) <= near;
                bool second = first && Math.Abs(rr[i + 1] - rr[j + 1]) <= near;
                one += first ? 1 : 0;
                two += second ? 1 : 0;
                asked += second && j < 30 ? 1 : 0;
                three += second && j < 30 && Math.Abs(rr[i + 2] - rr[j + 2]) <= near ? 1 : 0;
            }
        }

        return isIrregular ? two > 0.5 * one || three > 0.625 * asked : two <= 0.375 * one && three <= 0.5 * asked;
    }

    private static double Ectopy(double share, bool isCalledNormal)
    {
        var random = new Random(26);
        RhythmCheck check = Started();
        double t = 0;
        int irregular = 0;
        bool wasEarly = false;
        for (int i = 0; i < 3000; i++)
        {
            bool isEarly = !wasEarly && random.NextDouble() < share;
            double usual = 0.8 + (0.012 * Math.Sin(t * 1.6)) + (0.004 * SyntheticEcg.Normal(random));
            t += wasEarly ? 1.6 - 0.5 : isEarly ? 0.5 + (0.02 * SyntheticEcg.Normal(random)) : usual;
            wasEarly = isEarly;
            check.Add(At(t), i == 0, isCalledNormal || !isEarly);
            irregular += check.IsIrregular ? 1 : 0;
        }

        return irregular / 3000.0;
    }

    /// <summary>Share of beats after the first 60 at which the rhythm is called irregular.</summary>
    private static double Share(int beats, Func<double, double> intervalMs)
    {
        RhythmCheck check = Started();
        double t = 0;
        int irregular = 0;
        for (int i = 0; i < beats; i++)
        {
            t += intervalMs(t) / 1000;
            check.Add(At(t), i == 0, true);
            irregular += i >= 60 && check.IsIrregular ? 1 : 0;
        }

        return irregular / (beats - 60.0);
    }

    private static long At(double seconds) => (long)Math.Round(seconds * 256_000);

    private static RhythmCheck Started()
    {
        var check = new RhythmCheck();
        check.Start(new CommonClock(1000));
        return check;
    }
}
