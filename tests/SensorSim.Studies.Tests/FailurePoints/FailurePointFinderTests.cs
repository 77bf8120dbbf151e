// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.FailurePoints;

[TestFixture]
public sealed class FailurePointFinderTests
{
    private static readonly double[] NineLevels = KnownDetector.Even(24, -8, 9);

    [Test]
    public void Find_Levels_AreThePooledFigures()
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 20, 3);
        StudyResults results = new KnownDetector { SubjectSd = 0.5 }.Study(plan, 1);
        FailurePoint point = FailurePointFinder.Find(results)[0];
        Assert.That(point.Levels.Select(l => l.Level), Is.EqualTo(NineLevels.Order()));
        foreach (LevelFigure level in point.Levels)
        {
            var pool = new RunPool(point.Requirement.Definition, ChannelName.Ecg);
            foreach (RunRow row in results.At(level.Point, 0))
            {
                pool.Add(row);
            }

            Assert.That(level.Figure, Is.EqualTo(pool.Figure));
            Assert.That(level.RunCount, Is.EqualTo(60));
            Assert.That(level.EventCount, Is.EqualTo(60 * 60));
            Assert.That(level.Figure, Is.InRange(level.Interval!.Value.Low, level.Interval.Value.High));
        }

        Assert.That(point.Definition, Does.Contain("20 seeds, 3 subjects, 540 runs at 9 levels, 60 events or readings a run"));
        Assert.That(point.Curve, Has.Count.GreaterThan(50));
        Assert.That(point.Curve.Select(c => c.Level), Is.Ordered.Ascending);
        Assert.That(point.Curve[^1].Level, Is.EqualTo(24.0));
    }

    [TestCase(RequiredFigure.TimingSd)]
    [TestCase(RequiredFigure.TimingBias)]
    [TestCase(RequiredFigure.TimingP95)]
    public void Find_LevelsOfTiming_AreThePooledFigures(RequiredFigure figure)
    {
        RequirementDefinition definition = RequirementKeys.All.First(r => r.Figure == figure && r.Kind == MarkKind.RPeak);
        StudyPlan plan = KnownDetector.Plan(NineLevels, 10) with { Requirements = [(definition, 6)] };
        StudyResults results = Results(plan, key => KnownDetector.RowOf(
            plan.NumberOf(key), new DetectionCounts(30 + key.Seed, 2, 0), 1_000_000 * (key.Point + 1) * (key.Seed % 3 == 0 ? 1 : 3)));
        FailurePoint point = FailurePointFinder.Find(results)[0];
        foreach (LevelFigure level in point.Levels)
        {
            var pool = new RunPool(definition, ChannelName.Ecg);
            foreach (RunRow row in results.At(level.Point, 0))
            {
                pool.Add(row);
            }

            Assert.That(level.Figure, Is.EqualTo(pool.Figure).Within(1e-9));
            Assert.That(level.EventCount, Is.EqualTo(345));
        }

        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
    }

    // Every timing error is 5 ms for each level upwards from 24 dB: 12 ms are passed at 2.4 levels.
    [Test]
    public void Find_TimingBiasThatGrowsInAStraightLine_CrossesWhereTheLineDoes()
    {
        RequirementDefinition bias = RequirementKeys.All.First(r => r.Key.Name == "requirements.r_peak_timing_bias_ms_max");
        StudyPlan plan = KnownDetector.Plan(NineLevels, 10) with { Requirements = [(bias, 12)] };
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(plan.NumberOf(key), new DetectionCounts(40, 0, 0), -5_000_000 * key.Point)))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Level, Is.EqualTo(24 - (2.4 * 4)).Within(1e-9));
        Assert.That(point.Definition, Does.Contain("monotone interpolation"));
    }

    [TestCase(0.2, FailurePointState.MetEverywhere)]
    [TestCase(0.9999, FailurePointState.MetNowhere)]
    [TestCase(0.9, FailurePointState.Found)]
    public void Find_RequirementBelowAboveAndAmongTheFigures_GetsItsState(double limit, FailurePointState state)
    {
        FailurePoint point = FailurePointFinder.Find(new KnownDetector().Study(KnownDetector.Plan(NineLevels, 40, 1, limit), 2))[0];
        Assert.That(point.State, Is.EqualTo(state), point.Definition);
        Assert.That(point.Level is not null, Is.EqualTo(state == FailurePointState.Found));
    }

    [Test]
    public void Find_MetAgainAtWorseLevels_IsNoCurve()
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 30, 1, 0.9);
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(
            plan.NumberOf(key), new DetectionCounts(key.Point is 2 or 3 or > 5 ? 40 - (key.Seed % 3) : 58 + (key.Seed % 2), 2, 0) is var c ? c with { Missed = 60 - c.Matched } : default)))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.NoCurve));
        Assert.That(point.Warnings, Has.Some.Contains("more than one crossing"));
    }

    [Test]
    public void Find_StepBetweenTwoLevels_IntervalHoldsTheWholeGap()
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 30, 1, 0.9) with { FailurePoint = new FailurePointSettings { PassFraction = 0.95 } };
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(
            plan.NumberOf(key), key.Point < 4 ? new DetectionCounts(60, 0, 0) : new DetectionCounts(30, 30, 0))))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Level, Is.EqualTo(10));
        Assert.That(point.Interval, Is.EqualTo(new Interval(8, 12)));
        Assert.That(point.Warnings, Has.Some.Contains("no level in between"));
    }

    // Of 1, 0.98 and 0 the requirement of 0.9 is crossed between the last two, though a curve through so few has no slope.
    [Test]
    public void Find_StepAfterASlightFall_LiesWhereTheFiguresCross()
    {
        StudyPlan plan = KnownDetector.Plan([10, 3, -4], 4, 1, 0.9);
        int[] found = [22, 21, 0];
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(
            plan.NumberOf(key), new DetectionCounts(found[key.Point] + (key.Point == 1 && key.Seed > 1 ? 1 : 0), 22 - found[key.Point] - (key.Point == 1 && key.Seed > 1 ? 1 : 0), 0))))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Level, Is.InRange(-4, 3));
        Assert.That(point.Interval!.Value.High, Is.LessThanOrEqualTo(3));
    }

    // Fitted, interpolated, or a step between two levels of which nothing is known: who sees the curve sees the failure point on it.
    [TestCase("fitted", 40, null, null)]
    [TestCase("fitted, runs", 40, 0.9, null)]
    [TestCase("step", 30, 0.95, 60)]
    [TestCase("step of pooled figures", 30, null, 60)]
    [TestCase("step with a slope beside it", 20, 0.9, 54)]
    public void Find_Curve_CrossesTheRequirementAtTheFailurePoint(string what, int seeds, double? passFraction, int? before)
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, seeds, 1, 0.9) with { FailurePoint = new FailurePointSettings { PassFraction = passFraction } };
        StudyResults results = before is not int some ? new KnownDetector().Study(plan, 1) : Results(plan, key => KnownDetector.RowOf(
            plan.NumberOf(key), key.Point < 3 ? new DetectionCounts(60, 0, 0) : key.Point == 3 ? new DetectionCounts(key.Seed == 0 ? some - 6 : 60, key.Seed == 0 ? 66 - some : 0, 0) : new DetectionCounts(20, 40, 0)));
        FailurePoint point = FailurePointFinder.Find(results)[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found), what);
        Assert.That(CrossedAt(point, passFraction ?? 0.9), Is.EqualTo(point.Level!.Value).Within(1e-6), point.Definition);
        Assert.That(point.Curve.Select(c => c.Level), Is.Ordered.Ascending);
    }

    [Test]
    public void Find_CurveOfTiming_CrossesTheRequirementAtTheFailurePoint()
    {
        RequirementDefinition bias = RequirementKeys.All.First(r => r.Key.Name == "requirements.r_peak_timing_bias_ms_max");
        StudyPlan plan = KnownDetector.Plan(NineLevels, 10) with { Requirements = [(bias, 12)] };
        FailurePoint point = FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(plan.NumberOf(key), new DetectionCounts(40, 0, 0), 1_000_000 * key.Point * key.Point)))[0];
        Assert.That(CrossedAt(point, 12), Is.EqualTo(point.Level!.Value).Within(1e-6));
    }

    // Deviance of a curve that goes through every level: what rounds to nothing has no sign.
    [Test]
    public void Find_Definition_HasNoMinusBeforeNothing()
    {
        StudyPlan plan = KnownDetector.Plan([12, 6, 0], 4, 1, 0.4);
        string[] definitions =
        [
            .. from missed in Enumerable.Range(1, 29)
               from isSteep in new[] { false, true }
               let ofLevels = isSteep ? new[] { missed, 30, 60 - missed } : [missed, missed, missed]
               select FailurePointFinder.Find(Results(plan, key => KnownDetector.RowOf(plan.NumberOf(key), new DetectionCounts(60 - ofLevels[key.Point], ofLevels[key.Point], 0))))[0].Definition,
        ];
        Assert.That(definitions, Has.Some.Contains("deviance 0 with"));
        Assert.That(definitions, Has.None.Contains("-0 "));
    }

    // All of 20 is no less than 0.99, though half an event less would be.
    [TestCase(20, 20, 5, 1, 2)]
    [TestCase(20, 0, 0, 0, 1)]
    public void Interpolated_AllOfFew_MeetsTheRequirement(int first, int second, int third, double low, double high)
    {
        RequirementOnRow requirement = new(RequirementKeys.All.First(r => r.Key.Name == "requirements.r_peak_sensitivity_min"), 0.9, ChannelName.Ecg);
        var finder = new InterpolatedCrossing([0, 1, 2], new FigureColumns(requirement, 0.99));
        Crossing crossing = finder.Find([first, 20, 0, second, 20, 0, third, 20, 0]);
        Assert.That((crossing.Low, crossing.High), Is.EqualTo((crossing.Low, crossing.Low)));
        Assert.That(crossing.Low, Is.InRange(low, high));
    }

    [TestCase(20, FailurePointState.NoCurve)]
    [TestCase(1, FailurePointState.Found)]
    public void Find_DetectorThatDidNotAnswerAtTimes_SaysSo(int of40, FailurePointState state)
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 40);
        StudyResults answered = new KnownDetector().Study(plan, 5);
        var results = new StudyResults(plan, answered.Rows.Select(r => plan.KeyOf(r.Run).Seed < of40 ? r with { Verdict = Verdict.Crashed, VerdictReason = "it ended" } : r));
        FailurePoint point = FailurePointFinder.Find(results)[0];
        Assert.That(point.State, Is.EqualTo(state));
        Assert.That(point.Warnings, Has.Some.StartsWith($"The detector did not answer in {of40 * 9} of 360 runs"));
    }

    // The same many seeds: at levels 12 dB apart the interval rests on the shape of the curve, at levels 1 dB apart on the figures.
    [TestCase(12.0, true)]
    [TestCase(1.0, false)]
    public void Find_ManySeedsAtCoarseLevels_WarnsThatTheShapeDecides(double apartDb, bool isWarned)
    {
        StudyPlan plan = KnownDetector.Plan(KnownDetector.Even(22, 22 - (apartDb * (apartDb > 4 ? 4 : 24)), apartDb > 4 ? 5 : 25), 600);
        FailurePoint point = FailurePointFinder.Find(new KnownDetector().Study(plan, 5))[0];
        Assert.That(point.State, Is.EqualTo(FailurePointState.Found));
        Assert.That(point.Warnings.Any(w => w.Contains("less than a tenth of the distance", StringComparison.Ordinal)), Is.EqualTo(isWarned));
    }

    [Test]
    public void Find_CrossingNearTheLastLevel_IntervalIsOpen()
    {
        var known = new KnownDetector();
        double truth = KnownDetector.LevelWhere(known.Pooled, 0.99);
        StudyPlan plan = KnownDetector.Plan(KnownDetector.Even(truth + 12, truth - 0.1, 9), 30);
        FailurePoint point = FailurePointFinder.Find(known.Study(plan, 3))[0];
        Assert.That(point.Interval!.Value.Low, Is.EqualTo(double.NegativeInfinity));
        Assert.That(point.Interval.Value.High, Is.GreaterThan(truth).And.LessThan(truth + 8));
        Assert.That(point.Warnings, Has.Some.Contains("open"));
    }

    [Test]
    public void Find_EqualRatios_FitsOnTheLogarithm()
    {
        // The same study with levels 2^(dB/4): the failure point is 2^(that in dB/4).
        var known = new KnownDetector();
        StudyPlan plain = KnownDetector.Plan(NineLevels, 40);
        StudyResults results = known.Study(plain, 4);
        double[] ratios = [.. NineLevels.Select(l => Math.Pow(2, l / 4))];
        StudyPlan inRatios = KnownDetector.Plan(ratios, 40);
        inRatios = inRatios with { Factors = [inRatios.Factors[0] with { IsInRatios = true }] };
        FailurePoint level = FailurePointFinder.Find(results)[0];
        FailurePoint ratio = FailurePointFinder.Find(new StudyResults(inRatios, results.Rows))[0];
        Assert.That(4 * Math.Log2(ratio.Level!.Value), Is.EqualTo(level.Level).Within(1e-4));
        Assert.That(4 * Math.Log2(ratio.Interval!.Value.Low), Is.EqualTo(level.Interval!.Value.Low).Within(1e-3));
        Assert.That(ratio.Definition, Does.Contain("logarithm"));
    }

    [Test]
    public void Find_OtherKeys_AreHeldOneByOne()
    {
        StudyPlan plan = TwoKeys([.. from a in NineLevels from b in new[] { 0.0, 5.0 } select (a, b)]);
        IReadOnlyList<FailurePoint> points = FailurePointFinder.Find(Known(plan));
        Assert.That(points.Count(p => p.Factor == plan.Factors[0]), Is.EqualTo(2), "one for each value of the other");
        Assert.That(points.Count(p => p.Factor == plan.Factors[1]), Is.EqualTo(9));
        Assert.That(points[0].Held, Is.EqualTo(new[] { (plan.Factors[1], (object)0.0) }));
        Assert.That(points[1].Level - points[0].Level, Is.EqualTo(5).Within(1.5), "the known detector fails 5 dB earlier");
        Assert.That(FailurePointFinder.WhyNone(Known(plan)), Is.Null);
    }

    [Test]
    public void Find_NoTwoPointsDifferInOneKeyOnly_HasNoneAndSaysWhy()
    {
        StudyPlan plan = TwoKeys([(24, 1), (16, 3), (8, 2), (0, 5), (-8, 4)]);
        Assert.That(FailurePointFinder.Find(Known(plan)), Is.Empty);
        Assert.That(FailurePointFinder.WhyNone(Known(plan)), Does.Contain("Latin hypercube"));
    }

    [Test]
    public void Find_SameRowsTwice_IsTheSameToTheBit()
    {
        StudyResults results = new KnownDetector().Study(KnownDetector.Plan(NineLevels, 30), 5);
        FailurePoint a = FailurePointFinder.Find(results)[0];
        FailurePoint b = FailurePointFinder.Find(new StudyResults(results.Plan, results.Rows.Reverse()))[0];
        Assert.That(b.Level, Is.EqualTo(a.Level));
        Assert.That(b.Interval, Is.EqualTo(a.Interval));
    }

    [Test]
    public void Rows_OfFailurePoints_HoldLevelAndStateInWords()
    {
        StudyPlan plan = TwoKeys([.. from a in NineLevels from b in new[] { 0.0, 5.0 } select (a, b)]);
        IReadOnlyList<FailurePoint> points = FailurePointFinder.Find(Known(plan));
        FailurePointRow row = FailurePointRow.Of(plan, points)[1];
        Assert.That((row.Detector, row.Subject, row.State, row.Unit, row.Held), Is.EqualTo(("known", "ecg r_peak", "found", "dB", $"{plan.Factors[1].Key.Name}=5")));
        Assert.That(row.Level, Is.EqualTo(points[1].Level));
        Assert.That(row.Cells, Has.Count.EqualTo(FailurePointRow.Columns.Count));
    }

    private static StudyPlan TwoKeys((double A, double B)[] points)
    {
        StudyPlan plan = KnownDetector.Plan(NineLevels, 30);
        KeyDefinition other = AllKeys.Find("ecg_noise.mains_snr_db")!;
        return plan with
        {
            Factors = [plan.Factors[0], new Factor(other, [.. points.Select(p => (object)p.B).Distinct()])],
            Points = [.. points.Select((p, i) => new StudyPoint(i, [p.A, p.B]))],
        };
    }

    // The other key counts against the first, dB for dB.
    private static StudyResults Known(StudyPlan plan)
    {
        var rows = new List<RunRow>();
        for (long run = 0; run < plan.RunCount; run++)
        {
            double b = (double)plan.Points[plan.KeyOf(run).Point].Values[1];
            rows.Add(new KnownDetector { Middle = 2.3 + b }.Row(plan, run, 7));
        }

        return new StudyResults(plan, rows);
    }

    // Where the line through the points of the curve crosses a figure.
    private static double CrossedAt(FailurePoint point, double figure)
    {
        foreach (((double level, double at), (double next, double then)) in point.Curve.Zip(point.Curve.Skip(1)))
        {
            if ((at - figure) * (then - figure) <= 0 && at != then)
            {
                return level + ((next - level) * (figure - at) / (then - at));
            }
        }

        return double.NaN;
    }

    private static StudyResults Results(StudyPlan plan, Func<RunKey, RunRow> row)
    {
        var rows = new List<RunRow>();
        for (long run = 0; run < plan.RunCount; run++)
        {
            rows.Add(row(plan.KeyOf(run)));
        }

        return new StudyResults(plan, rows);
    }
}
