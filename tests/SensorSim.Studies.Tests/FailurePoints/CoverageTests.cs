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

    [TestCase(0.99, null, 100, 300, 400)]
    [TestCase(0.9, 0.5, 100, 300, 400)]
    public void Find_KnownDetector_IntervalHoldsTheTruthAsOftenAsItSays(double limit, double? passFraction, int seeds, int studies, int resamples) =>
        Check(new KnownDetector(), "usual", limit, passFraction, seeds, studies, resamples, NineLevels);

    private static void Check(
        KnownDetector detector, string name, double limit, double? passFraction, int seeds, int studies, int resamples, double[] levels, int subjects = 1)
    {
        StudyPlan plan = KnownDetector.Plan(levels, seeds, subjects, limit) with
        {
            FailurePoint = new FailurePointSettings { Resamples = resamples, PassFraction = passFraction },
        };
        double truth = passFraction is double share
            ? KnownDetector.LevelWhere(x => detector.Passing(x, limit), share)
            : KnownDetector.LevelWhere(detector.Pooled, limit);
        int covered = 0, below = 0, above = 0, none = 0, interpolated = 0;
        double width = 0, bias = 0, square = 0;
        var gate = new Lock();
        Parallel.For(0, studies, world =>
        {
            FailurePoint point = FailurePointFinder.Find(detector.Study(plan, world))[0];
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
            $"{name} limit {limit} of {passFraction} truth {truth:0.00}: covered {100.0 * covered / studies:0.0} %, above {below}, below {above}, not found {none}, interpolated {interpolated}, width {width:0.00}, bias {bias:0.000}, rms {Math.Sqrt(square):0.000}");
        TestContext.Out.WriteLine(text);
        Assert.That((double)covered / studies, Is.InRange(0.92, 0.98), text);
    }
#if true
    [TestCase(0)]
    [TestCase(1)]
    [TestCase(2)]
    [TestCase(3)]
    [TestCase(4)]
    [TestCase(5)]
    [TestCase(6)]
    [TestCase(7)]
    [TestCase(8)]
    [TestCase(9)]
    public void Explore(int which)
    {
        var d = new KnownDetector();
        switch (which)
        {
            case 0: Check(d, "200 seeds", 0.99, null, 200, 200, 300, NineLevels); break;
            case 1: Check(d, "pass .95", 0.9, 0.95, 100, 200, 300, NineLevels); break;
            case 2: Check(d with { IsSkew = true }, "skew", 0.99, null, 100, 200, 300, NineLevels); break;
            case 3: Check(d with { Lapse = 0.006 }, "lapse", 0.99, null, 100, 200, 300, NineLevels); break;
            case 4: Check(d with { WidthDb = 0.8 }, "steep", 0.99, null, 100, 200, 300, NineLevels); break;
            case 5: Check(d with { SeedSd = 2 }, "wild seeds", 0.95, null, 100, 200, 300, NineLevels); break;
            case 6: Check(d with { Lapse = 0, Floor = 0 }, "plain", 0.9, null, 40, 200, 300, NineLevels); break;
            case 7: Check(d, "fine", 0.99, null, 40, 200, 300, KnownDetector.Even(24, -8, 33)); break;
            case 8: Check(d with { SubjectSd = 0.5 }, "12 subjects", 0.99, null, 40, 200, 300, NineLevels, 12); break;
            case 9: Check(d with { IsSkew = true }, "skew pass", 0.9, 0.5, 100, 200, 300, NineLevels); break;
        }
    }
#endif
}
