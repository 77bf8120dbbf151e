// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.FailurePoints;

/// <summary>Failure points of readings: how often there is one, how often it is wrong, how soon the first one comes.</summary>
[TestFixture]
public sealed class FigureColumnsTests
{
    private static readonly double[] NineLevels = KnownDetector.Even(24, -8, 9);

    [TestCase("heart_rate_available_share_min", 0.8)]
    [TestCase("heart_rate_wrong_share_max", 0.2)]
    [TestCase("heart_rate_first_reading_s_max", 12)]
    [TestCase("heart_rate_rms_bpm_max", 3)]
    public void Find_LevelsOfReadings_AreThePooledFigures(string requirement, double limit)
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 8, 3, limit, requirement);
        StudyResults results = Results(plan, key => Reading(
            50 + key.Seed, key.Point * 4, key.Subject, 1, (key.Seed + 3 + (2L * key.Point)) * 1_000_000_000, 50_000_000_000 - key.Seed, 47_000_000_000L - (key.Point * 4_000_000_001L)));
        FailurePoint point = FailurePointFinder.Find(results)[0];
        foreach (LevelFigure level in point.Levels)
        {
            var pool = new RunPool(point.Requirement.Definition, ChannelName.Ecg);
            foreach (RunRow row in results.At(level.Point, 0))
            {
                pool.Add(row);
            }

            Assert.That(level.Figure, Is.EqualTo(pool.Figure).Within(1e-12));
            Assert.That(level.Figure, Is.InRange(level.Interval!.Value.Low - 1e-12, level.Interval.Value.High + 1e-12));
            Assert.That(level.EventCount, Is.GreaterThan(0));
        }
    }

    // A share that is a logistic curve of the level: 1 in 10 is reached where the curve's logit is ln 9.
    [TestCase("heart_rate_available_share_min", 0.9)]
    [TestCase("heart_rate_wrong_share_max", 0.1)]
    public void Find_ShareOfReadingsOnALogisticCurve_CrossesWhereTheCurveDoes(string requirement, double limit)
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 30, 1, limit, requirement);
        FailurePoint point = FailurePointFinder.Find(Results(plan, key =>
        {
            double p = 1 / (1 + Math.Exp(-(NineLevels[key.Point] - 3) / 2));
            long right = (long)Math.Round(100_000 * p);
            return Reading(100_000, (int)(100_000 - right), 0, 0, 1_000_000_000, 50_000_000_000, (long)Math.Round(p * 50_000_000_000));
        }))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Level, Is.EqualTo(3 + (2 * Math.Log(9))).Within(0.02), point.Definition);
        (double level, double figure) = point.Curve.MinBy(c => Math.Abs(c.Level - 6));
        double there = 1 / (1 + Math.Exp(-(level - 3) / 2));
        Assert.That(figure, Is.EqualTo(limit > 0.5 ? there : 1 - there).Within(0.005), "the plotted curve is that of the figure itself");
    }

    // The first reading comes 2 s later with each level: 11 s are passed 3.5 levels after 4 s.
    [Test]
    public void Find_FirstReadingThatComesLaterAndLater_CrossesWhereTheLineDoes()
    {
        FailurePoint point = FailurePointFinder.Find(Results(KnownDetector.Plan(NineLevels, 10, 1, 11, "heart_rate_first_reading_s_max"), key => First(4 + (2 * key.Point))))[0];
        Assert.That(point.Level, Is.EqualTo(24 - (3.5 * 4)).Within(1e-9));
    }

    // Up to 8 dB the first reading comes in time; beyond, one run in ten has none, so that the mean is worse than any number.
    [Test]
    public void Find_SomeRunsWithoutAnyReading_FailsThereAndNotBefore()
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 10, 1, 30, "heart_rate_first_reading_s_max");
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => key.Point > 4 && key.Seed == 3 ? null : First(4 + key.Point)))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Level, Is.EqualTo(6), "between 8 dB and 4 dB");
        Assert.That(point.Interval!.Value.High, Is.EqualTo(8));
        Assert.That(point.Levels[0].Figure, Is.Null);
        Assert.That(point.Levels[^1].Figure, Is.EqualTo(4));
        Assert.That(point.Definition, Does.Contain("time to the first reading"));

        FailurePoint nowhere = FailurePointFinder.Find(Results(plan, key => key.Seed == 3 ? null : First(4)))[0];
        Assert.That(nowhere.State, Is.EqualTo(FailurePointState.MetNowhere));
    }

    // A run without any row of readings has all its time to answer for.
    [Test]
    public void Find_RunsThatNeverRead_CountAsTimeWithoutReading()
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 10, 1, 0.5, "heart_rate_available_share_min");
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => key.Seed <= key.Point ? null : Reading(10, 0, 0, 0, 1, 51_000_000_000, 51_000_000_000)))[0];
        Assert.That(point.Levels.Select(l => l.Figure), Is.EqualTo(Enumerable.Range(1, 9).Select(i => i / 10.0)).Within(1e-12));
    }

    private static ReadingRow First(int seconds) => Reading(20, 0, 0, 0, seconds * 1_000_000_000L, 50_000_000_000, 40_000_000_000);

    private static ReadingRow Reading(int count, int off, int nothing, int unusable, long firstNs, long usableNs, long availableNs) => new()
    {
        Channel = ChannelName.Ecg,
        Kind = MarkKind.HeartRateBpm,
        Count = count,
        SumMicro = off * 2_000_000L,
        SquaresMicro = (Int128)off * 40_000_000_000_000,
        OffCount = off,
        NothingThereCount = nothing,
        InUnusableCount = unusable,
        FirstReadingNs = firstNs,
        UsableNs = usableNs,
        AvailableNs = availableNs,
        LatencySumNs = 0,
    };

    private static StudyResults Results(StudyPlan plan, Func<RunKey, ReadingRow?> reading)
    {
        var rows = new List<RunRow>();
        for (long run = 0; run < plan.RunCount; run++)
        {
            ReadingRow? row = reading(plan.KeyOf(run));
            rows.Add(new RunRow
            {
                Run = run,
                Verdict = Verdict.Answered,
                VerdictReason = "",
                SampleCount = 1,
                MarkCount = 1,
                ScoredNs = 51_000_000_000,
                Events = [],
                Readings = row is null ? [] : [row],
            });
        }

        return new StudyResults(plan, rows);
    }
}
