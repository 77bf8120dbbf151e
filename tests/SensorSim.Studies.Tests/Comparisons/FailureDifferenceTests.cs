// SPDX-License-Identifier: MIT
using SensorSim.Files.JUnit;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Tests.FailurePoints;

namespace SensorSim.Studies.Tests.Comparisons;

/// <summary>Failure points that lie beyond the levels: on which side, what is then known of the difference, and which of the two is better.</summary>
[TestFixture]
public sealed class FailureDifferenceTests
{
    private static readonly double[] s_levels = KnownDetector.Even(24, -8, 9);
    private static readonly StudyPlan s_plan = Pairs.Two(ComparisonTests.Small(KnownDetector.Plan(s_levels, 40, limit: 0.9)));
    private static readonly KnownDetector s_usual = new();

    // A ratio of signal to noise: the lower the level at which a detector fails, the better. The other one alone tells that.
    [TestCase(60, "below -8 dB (met at every level)", "below", DifferenceVerdict.Better)]
    [TestCase(0, "above 24 dB (met at no level)", "above", DifferenceVerdict.Worse)]
    public void Of_SecondBeyondTheLevels_IsToldWithItsBound(int found, string level, string side, DifferenceVerdict verdict)
    {
        FailureDifference difference = Of((run, isFirst) => isFirst ? Usual(run) : found);
        double first = difference.First.Level!.Value;
        double bound = (found == 60 ? -8 : 24) - first;

        Assert.That(difference.Verdict, Is.EqualTo(verdict));
        Assert.That(difference.IsSmallerBetter, Is.True);
        Assert.That(ComparisonTexts.Level(difference, difference.Second), Is.EqualTo(level));
        Assert.That(difference.Bound, Is.EqualTo((bound, found == 60)));
        Interval interval = difference.Interval!.Value;
        Assert.That(found == 60 ? interval.Low : -interval.High, Is.EqualTo(double.NegativeInfinity), "how far beyond nobody knows");
        Assert.That(found == 60 ? interval.High : interval.Low, Is.EqualTo((found == 60 ? -8 : 24) - (found == 60 ? difference.First.Interval!.Value.Low : difference.First.Interval!.Value.High)).Within(0.5));
        (string less, string span) = ComparisonTexts.Told(difference, interval);
        Assert.That(less, Does.StartWith($"{side} {bound.ToString("F0", System.Globalization.CultureInfo.InvariantCulture)[..2]}"));
        Assert.That(span, Does.StartWith(side).And.Not.Contain("inf"));
        Assert.That(ComparisonTexts.Sentence(difference), Does.Contain($"of the second: {level}").And.Contain("a smaller level is better"));
    }

    [Test]
    public void Of_FirstBeyondTheLevels_IsTheOtherWayRound()
    {
        FailureDifference difference = Of((run, isFirst) => isFirst ? 60 : Usual(run));

        Assert.That(difference.Verdict, Is.EqualTo(DifferenceVerdict.Worse));
        Assert.That(difference.Bound, Is.EqualTo((difference.Second.Level!.Value + 8, false)));
    }

    // The first fails between the two lowest levels, nobody knows where, the second below them: however near, that is better.
    [Test]
    public void Of_StepAtTheLastLevelAndBeyondIt_StillDiffer()
    {
        FailureDifference difference = Of((run, isFirst) => isFirst && s_plan.KeyOf(run).Point == 8 ? 10 : 60);

        Assert.That((difference.First.Level, difference.Second.State), Is.EqualTo((-6.0, FailurePointState.MetEverywhere)));
        Assert.That(difference.Interval!.Value.High, Is.Zero);
        Assert.That(difference.Verdict, Is.EqualTo(DifferenceVerdict.Better));
    }

    // All the same at every level: nothing tells which way things get worse, and nothing has to.
    [TestCase(0, 60, DifferenceVerdict.Better)]
    [TestCase(60, 0, DifferenceVerdict.Worse)]
    public void Of_AllAgainstNone_IsShownWithoutAWay(int first, int second, DifferenceVerdict verdict)
    {
        Comparison comparison = Comparison.Of(PairOf((_, isFirst) => isFirst ? first : second));
        FailureDifference difference = comparison.FailurePoints.Single();

        Assert.That((difference.Verdict, difference.IsSmallerBetter, difference.Interval), Is.EqualTo((verdict, (bool?)null, (Interval?)null)));
        Assert.That(ComparisonTexts.Level(difference, difference.First), Is.EqualTo($"met at {(first == 60 ? "every" : "no")} level, -8 to 24 dB"));
        Assert.That(ComparisonTexts.Sentence(difference), Does.Not.Contain("is better").And.Not.Contain("inf"));
        JUnitCase judged = new Gate(comparison, new Dictionary<string, double>()).Cases.Single(c => c.ClassName.StartsWith("failure_point", StringComparison.Ordinal));
        Assert.That(judged.Outcome, Is.EqualTo(verdict == DifferenceVerdict.Worse ? JUnitOutcome.Failed : JUnitOutcome.Passed));
    }

    [TestCase(60, "cannot be told: both met at every level")]
    [TestCase(0, "cannot be told: both met at no level")]
    public void Of_BothBeyondOneEnd_CannotBeTold(int found, string verdict)
    {
        FailureDifference difference = Of((_, _) => found);

        Assert.That(ComparisonTexts.Verdict(difference), Is.EqualTo(verdict));
        Assert.That(difference.IsSmallerBetter, Is.Null, "nothing gets worse here, so nothing tells which way is better");
        Assert.That(ComparisonTexts.Sentence(difference), Does.EndWith("so their difference cannot be told"));
    }

    // The first barely meets the requirement everywhere, by chance slightly worse at the better levels, and in some resamples it does not: the second tells the way.
    [Test]
    public void Of_FirstThatSlopesTheWrongWayByChance_DoesNotTellTheWay()
    {
        FailureDifference difference = Of((run, isFirst) => !isFirst ? Usual(run) : s_plan.KeyOf(run).Seed % 4 == 0 ? 42 : s_plan.KeyOf(run).Point < 4 && s_plan.KeyOf(run).Seed % 7 == 1 ? 59 : 60);

        Assert.That((difference.First.State, difference.Second.State), Is.EqualTo((FailurePointState.MetEverywhere, FailurePointState.Found)));
        Assert.That(difference.IsSmallerBetter, Is.True);
        Assert.That(ComparisonTexts.Level(difference, difference.First), Is.EqualTo("below -8 dB (met at every level)"));
    }

    // 60 beats in each of 40 runs at 9 levels; the second misses 6 of each at one level.
    [Test]
    public void Counted_Shares_HaveTheirCounts()
    {
        Comparison comparison = Comparison.Of(PairOf((run, isFirst) => isFirst || s_plan.KeyOf(run).Point > 0 ? 60 : 45));
        PairedDifference overall = comparison.Overall.Single(d => d.Figure.Name == "r_peak_sensitivity");

        Assert.That(ComparisonTexts.Counted(overall, ComparedPair.First), Is.EqualTo("1 (21600 of 21600)"));
        Assert.That(ComparisonTexts.Counted(overall, ComparedPair.Second), Is.EqualTo("0.97222 (21000 of 21600)"));
        Assert.That(ComparisonTexts.RunsThatMeet(overall, ComparedPair.First), Is.EqualTo("360 of 360"));
        Assert.That(ComparisonTexts.RunsThatMeet(overall, ComparedPair.Second), Is.EqualTo("320 of 360"));
        PairedDifference timing = comparison.Overall.Single(d => d.Figure.Name == "r_peak_timing_sd_ms");
        Assert.That(ComparisonTexts.Counted(timing, ComparedPair.First), Is.EqualTo("0"), "no share, no count");
        Assert.That(ComparisonTexts.RunsThatMeet(timing, ComparedPair.First), Is.EqualTo("-"), "nothing is required of it");
    }

    private static int Usual(long run) => (int)s_usual.Row(s_plan, run, 5).Events[0].Counts.Matched;

    private static FailureDifference Of(Func<long, bool, int> found) => Comparison.Of(PairOf(found)).FailurePoints.Single();

    private static ComparedPair PairOf(Func<long, bool, int> found) => Pairs.Of(s_plan, Enumerable.Range(0, (int)s_plan.RunCount).Select(run =>
    {
        int own = found(run, s_plan.KeyOf(run).Detector == ComparedPair.First);
        return KnownDetector.RowOf(run, new DetectionCounts(own, 60 - own, 0));
    }));
}
