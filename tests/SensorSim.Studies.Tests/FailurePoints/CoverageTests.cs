// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.FailurePoints;

/// <summary>
/// The measure of an interval is how often it holds the truth. Whole studies of a known detector are drawn; the truth is integrated from
/// its curve. 95 % within 92 to 98 %: 300 studies have a standard error of 1.3 points.
/// </summary>
[TestFixture]
public sealed class CoverageTests
{
    private static readonly double[] NineLevels = KnownDetector.Even(24, -8, 9);

    [TestCase(0.99, null)]
    [TestCase(0.9, 0.5)]
    public void Find_KnownDetector_IntervalHoldsTheTruthAsOftenAsItSays(double limit, double? passFraction) =>
        Check(new KnownDetector(), limit, passFraction, 100, 300, NineLevels);

    [TestCase("more seeds", 0.99, null, 200)]
    [TestCase("usual", 0.99, null, 100)]
    [TestCase("few seeds, no lapse, no floor", 0.9, null, 40)]
    [TestCase("lapse of half of what may be missed", 0.99, null, 100)]
    [TestCase("unlike seeds", 0.95, null, 100)]
    [TestCase("skew", 0.99, null, 100)]
    [TestCase("fine", 0.99, null, 40)]
    [TestCase("subjects", 0.99, null, 40)]
    [TestCase("usual", 0.9, 0.95, 100)]
    [TestCase("usual", 0.9, 0.5, 100)]
    [TestCase("skew", 0.9, 0.5, 100)]
    [Category("Slow")]
    public void Find_OtherDetectors_IntervalHoldsTheTruthAsOftenAsItSays(string which, double limit, double? passFraction, int seeds)
    {
        var usual = new KnownDetector();
        KnownDetector detector = which switch
        {
            "few seeds, no lapse, no floor" => usual with { Lapse = 0, Floor = 0 },
            "lapse of half of what may be missed" => usual with { Lapse = 0.006 },
            "unlike seeds" => usual with { SeedSd = 2 },
            "skew" => usual with { IsSkew = true },
            "subjects" => usual with { SubjectSd = 0.5 },
            _ => usual,
        };
        double[] levels = which == "fine" ? KnownDetector.Even(24, -8, 33) : NineLevels;
        Check(detector, limit, passFraction, seeds, 1000, levels, which == "subjects" ? 12 : 1);
    }

    // Detectors unlike the one that most rules were chosen on. Persons of a skew law are not among them: docs/failure-points.md says how short intervals are there.
    [TestCase("some bad seeds")]
    [TestCase("unequal beats")]
    public void Find_DetectorsUnlikeTheKnownOne_IntervalHoldsTheTruthAsOftenAsItSays(string which) => Check(UnlikeDetector.Of(which), 300, 0.92);

    [TestCase("some bad seeds", 0.935)]
    [TestCase("heavy tail", 0.92)]
    [TestCase("unequal beats", 0.92)]
    [TestCase("long tail", 0.92)]
    [TestCase("share of runs, unequal beats", 0.92)]
    [Category("Slow")]
    public void Find_DetectorsUnlikeTheKnownOneAndMoreStudies_IntervalHoldsTheTruthAsOftenAsItSays(string which, double least) => Check(UnlikeDetector.Of(which), 1000, least);

    // Levels five widths apart: the crossing lies between two of them, and the interval says no more than that.
    [Test]
    [Category("Slow")]
    public void Find_LevelsTooCoarse_IntervalHoldsTheTruthAtLeastAsOftenAsItSays() =>
        Check(new KnownDetector { WidthDb = 0.8 }, 0.99, null, 100, 400, NineLevels, 1, 1);

    // 15 % of the seeds are bad, and 90 % of the runs must pass: the requirement lies on the plateau that the bad seeds make, the interval is the plateau.
    [Test]
    [Category("Slow")]
    public void Find_RequirementOnAPlateau_IntervalHoldsTheTruthAtLeastAsOftenAsItSays() =>
        Check(UnlikeDetector.Of("share of runs, some bad seeds"), 1000, 0.935, 1);

    private static void Check(UnlikeDetector detector, int studies, double least, double most = 0.98)
    {
        StudyPlan plan = detector.Plan();
        Check(world => FailurePointFinder.Find(detector.Study(plan, world))[0], detector.Truth(), studies, least, most);
    }

    private static void Check(
        KnownDetector detector, double limit, double? passFraction, int seeds, int studies, double[] levels, int subjects = 1, double most = 0.98)
    {
        StudyPlan plan = KnownDetector.Plan(levels, seeds, subjects, limit) with
        {
            FailurePoint = new FailurePointSettings { Resamples = 300, PassFraction = passFraction },
        };
        double truth = passFraction is double share
            ? KnownDetector.LevelWhere(x => detector.Passing(x, limit), share)
            : KnownDetector.LevelWhere(detector.Pooled, limit);
        Check(world => FailurePointFinder.Find(detector.Study(plan, world))[0], truth, studies, 0.92, most);
    }

    private static void Check(Func<int, FailurePoint> study, double truth, int studies, double least, double most)
    {
        int covered = 0, below = 0, above = 0, none = 0, interpolated = 0;
        double width = 0, bias = 0, square = 0;
        var gate = new Lock();
        Parallel.For(0, studies, world =>
        {
            FailurePoint point = study(world);
            lock (gate)
            {
                Interval i = point.Interval ?? new Interval(double.NaN, double.NaN);
                covered += i.Low <= truth && truth <= i.High ? 1 : 0;
                below += i.High < truth ? 1 : 0;
                above += i.Low > truth ? 1 : 0;
                none += point.State == FailurePointState.Found ? 0 : 1;
                interpolated += point.Definition.Contains("interpolation", StringComparison.Ordinal) ? 1 : 0;
                width += double.IsFinite(i.High - i.Low) ? (i.High - i.Low) / studies : 0;
                bias += ((point.Level ?? truth) - truth) / studies;
                square += Math.Pow((point.Level ?? truth) - truth, 2) / studies;
            }
        });
        string text = FormattableString.Invariant(
            $"truth {truth:0.00}: covered {100.0 * covered / studies:0.0} %, above {below}, below {above}, not found {none}, interpolated {interpolated}, width {width:0.00}, bias {bias:0.000}, rms {Math.Sqrt(square):0.000}");
        TestContext.Out.WriteLine(text);
        Assert.That((double)covered / studies, Is.InRange(least, most), text);
    }
}
