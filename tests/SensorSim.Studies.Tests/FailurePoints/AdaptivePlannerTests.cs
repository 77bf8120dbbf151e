// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Tests.FailurePoints;

[TestFixture]
public sealed class AdaptivePlannerTests
{
    private static readonly KnownDetector Known = new();

    private static StudyPlan Plan(double precision = 0.75, double limit = 0.99, int seeds = 200) => KnownDetector.Plan(KnownDetector.Even(24, -8, 65), seeds, 1, limit) with
    {
        FailurePoint = new FailurePointSettings { IsAdaptive = true, Precision = precision, Resamples = 1000 },
    };

    [TestCase(1)]
    [TestCase(2)]
    [TestCase(3)]
    public void NextBatch_KnownDetector_ReachesThePrecisionWithFarFewerRuns(int world)
    {
        StudyPlan plan = Plan();
        List<RunRow> rows = Spend(new AdaptivePlanner(plan), plan, world);
        FailurePoint point = FailurePointFinder.Find(new StudyResults(plan, rows))[0];
        FailurePoint full = FailurePointFinder.Find(Known.Study(plan, world))[0];
        double truth = KnownDetector.LevelWhere(Known.Pooled, 0.99);
        TestContext.Out.WriteLine(FormattableString.Invariant(
            $"truth {truth:0.00}; {rows.Count} of {plan.RunCount} runs: {point.Level:0.00} ({point.Interval?.Low:0.00} to {point.Interval?.High:0.00}); all: {full.Level:0.00} ({full.Interval?.Low:0.00} to {full.Interval?.High:0.00})"));
        Assert.That(rows, Has.Count.LessThan(plan.RunCount / 5));
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(((point.Interval!.Value.High - point.Interval.Value.Low) / 2), Is.LessThan(0.75 * 1.15), "other resamples than on the way");
        Assert.That(full.Level, Is.InRange(point.Interval.Value.Low - 0.75, point.Interval.Value.High + 0.75));
        Assert.That(point.Level, Is.EqualTo(truth).Within(2 * 0.75));
    }

    [Test]
    public void NextBatch_RowsInOtherOrderPartlyOrByAnotherPlanner_AsksTheSame()
    {
        StudyPlan plan = Plan(1.5);
        var planner = new AdaptivePlanner(plan);
        var rows = new List<RunRow>();
        while (planner.NextBatch(rows) is { Count: > 0 } batch)
        {
            // A planner that knows nothing of the batches before, rows backwards and one that nobody asked for among them.
            long other = Enumerable.Range(0, 1000).First(r => !batch.Contains(r) && !rows.Any(o => o.Run == r));
            List<RunRow> turned = [.. rows.AsEnumerable().Reverse(), Known.Row(plan, other, 4)];
            Assert.That(new AdaptivePlanner(plan).NextBatch(turned), Is.EqualTo(batch));

            // Half a batch: the other half is asked for.
            List<RunRow> half = [.. rows, .. batch.Take(batch.Count / 2).Select(r => Known.Row(plan, r, 4))];
            Assert.That(new AdaptivePlanner(plan).NextBatch(half), Is.EqualTo(batch.Skip(batch.Count / 2)));
            rows.AddRange(batch.Select(r => Known.Row(plan, r, 4)));
        }

        Assert.That(rows.Select(r => r.Run), Is.Unique);
    }

    [Test]
    public void NextBatch_MostRuns_IsNeverPassed()
    {
        StudyPlan plan = Plan(0.05);
        plan = plan with { FailurePoint = plan.FailurePoint with { MostRuns = 301 } };
        Assert.That(Spend(new AdaptivePlanner(plan), plan, 5), Has.Count.InRange(290, 301));
    }

    [Test]
    public void NextBatch_MetEverywhere_StopsSoon()
    {
        StudyPlan plan = Plan(limit: 0.2);
        List<RunRow> rows = Spend(new AdaptivePlanner(plan), plan, 6);
        Assert.That(rows, Has.Count.LessThan(120));
        Assert.That(FailurePointFinder.Find(new StudyResults(plan, rows))[0].State, Is.EqualTo(FailurePointState.MetEverywhere));
    }

    [Test]
    public void NextBatch_TwoDetectors_EachGetsItsOwnLevels()
    {
        StudyPlan plan = Plan(1.5) with { Detectors = [new DetectorChoice { Label = "a" }, new DetectorChoice { Label = "b" }] };
        var other = new KnownDetector { Middle = -4 };
        var planner = new AdaptivePlanner(plan);
        var rows = new List<RunRow>();
        while (planner.NextBatch(rows) is { Count: > 0 } batch)
        {
            rows.AddRange(batch.Select(r => (plan.KeyOf(r).Detector == 0 ? Known : other).Row(plan, r, 7)));
        }

        IReadOnlyList<FailurePoint> points = FailurePointFinder.Find(new StudyResults(plan, rows));
        Assert.That(points[0].Level - points[1].Level, Is.EqualTo(6.3).Within(3.5));
        Assert.That(points.Select(p => (p.Interval!.Value.High - p.Interval.Value.Low) / 2), Is.All.LessThan(1.5 * 1.15));
    }

    [Test]
    public void Constructor_TwoKeysVaried_SaysWhatWouldBeRight()
    {
        StudyPlan plan = Plan();
        plan = plan with { Factors = [plan.Factors[0], plan.Factors[0]], Points = [new StudyPoint(0, [1.0, 2.0]), new StudyPoint(1, [2.0, 2.0]), new StudyPoint(2, [1.0, 3.0])] };
        Assert.That(() => new AdaptivePlanner(plan), Throws.InstanceOf<NotSupportedException>().With.Message.Contains("Vary one key only"));
    }

    private static List<RunRow> Spend(AdaptivePlanner planner, StudyPlan plan, int world)
    {
        var rows = new List<RunRow>();
        while (planner.NextBatch(rows) is { Count: > 0 } batch)
        {
            rows.AddRange(batch.Select(r => Known.Row(plan, r, world)));
        }

        return rows;
    }
}
