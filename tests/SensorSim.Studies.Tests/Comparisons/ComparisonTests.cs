// SPDX-License-Identifier: MIT
using SensorSim.Files.JUnit;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.FailurePoints;

namespace SensorSim.Studies.Tests.Comparisons;

[TestFixture]
public sealed class ComparisonTests
{
    private static readonly StudyPlan s_plan = Small(KnownDetector.Plan(KnownDetector.Even(24, -8, 9), 40, limit: 0.9));
    private static readonly KnownDetector s_usual = new();

    [Test]
    public void Of_TheSameRows_ShowsNoDifference()
    {
        StudyPlan two = Pairs.Two(s_plan);
        StudyResults one = s_usual.Study(s_plan, 3);
        Comparison comparison = Comparison.Of(Pairs.Of(two, one.Rows.SelectMany(r => new[] { r with { Run = 2 * r.Run }, r with { Run = (2 * r.Run) + 1 } })));
        foreach (PairedDifference d in comparison.Overall.Concat(comparison.AtPoints).Where(d => d.Difference is not null))
        {
            Assert.That((d.Difference, d.Interval, d.SwapP, d.Verdict), Is.EqualTo((0.0, new Interval(0, 0), 1.0, DifferenceVerdict.NoDifferenceShown)));
        }

        FailureDifference failure = comparison.FailurePoints.Single();
        Assert.That((failure.Difference, failure.Verdict), Is.EqualTo((0.0, DifferenceVerdict.NoDifferenceShown)));
        Assert.That(comparison.Runs, Is.Empty);
        Assert.That(new Gate(comparison, new Dictionary<string, double>()).Worse, Is.Empty);
    }

    [Test]
    public void Of_PlantedWorse_IsWorseInFigureFailurePointAndGate()
    {
        KnownDetector worse = s_usual with { Middle = s_usual.Middle + 1.5 };
        Comparison comparison = Pairs.Compare(s_plan, s_usual, worse);
        PairedDifference overall = comparison.Overall.Single(d => d.Figure.Name == "r_peak_sensitivity");
        FailureDifference failure = comparison.FailurePoints.Single();
        Assert.That(overall.Verdict, Is.EqualTo(DifferenceVerdict.Worse));
        Assert.That(failure.Verdict, Is.EqualTo(DifferenceVerdict.Worse));
        Assert.That(failure.Interval!.Value.Low, Is.LessThan(1.5), "its curve lies 1.5 dB higher");
        Assert.That(failure.Interval!.Value.High, Is.GreaterThan(1.5));
        Assert.That(new Gate(comparison, new Dictionary<string, double>()).Worse, Has.Count.EqualTo(2));
        Assert.That(
            new Gate(comparison, new Dictionary<string, double> { ["r_peak_sensitivity_min"] = 0.5, ["ecg_noise.muscle_snr_db"] = 4 }).Worse, Is.Empty, "within the margins");

        Comparison turned = Pairs.Compare(s_plan, worse, s_usual);
        Assert.That(turned.FailurePoints.Single().Verdict, Is.EqualTo(DifferenceVerdict.Better));
        Assert.That(new Gate(turned, new Dictionary<string, double>()).Worse, Is.Empty, "better passes");
    }

    // All the same at every level: which way is worse only the first tells.
    [TestCase(60, DifferenceVerdict.Better)]
    [TestCase(0, DifferenceVerdict.Worse)]
    public void Of_SecondIsTheSameEverywhere_IsToldByTheFirst(int found, DifferenceVerdict verdict)
    {
        StudyPlan two = Pairs.Two(s_plan);
        Comparison comparison = Comparison.Of(Pairs.Of(two, Enumerable.Range(0, (int)two.RunCount).Select(run => run % 2 == 0
            ? s_usual.Row(two, run, 5)
            : KnownDetector.RowOf(run, new DetectionCounts(found, 60 - found, 0)))));
        Assert.That(comparison.FailurePoints.Single().Verdict, Is.EqualTo(verdict));
        Assert.That(new Gate(comparison, new Dictionary<string, double>()).Worse.Any(w => w.Contains("failure point in", StringComparison.Ordinal)), Is.EqualTo(verdict == DifferenceVerdict.Worse));
    }

    [Test]
    public void Of_SecondAnswersNothing_FailsTheGate()
    {
        StudyPlan two = Pairs.Two(Small(KnownDetector.Plan([24], 8)));
        Comparison comparison = Comparison.Of(Pairs.Of(two, Enumerable.Range(0, 16).Select(run => run % 2 == 0
            ? KnownDetector.RowOf(run, new DetectionCounts(60, 0, 0))
            : KnownDetector.RowOf(run, new DetectionCounts(0, 60, 0)) with { Verdict = Verdict.Silent, VerdictReason = "no mark" })));
        IReadOnlyList<string> worse = new Gate(comparison, new Dictionary<string, double>()).Worse;
        Assert.That(comparison.NoLongerAnswered, Has.Count.EqualTo(8));
        Assert.That(worse[0], Does.Contain("8 runs that were answered before no longer are").And.Contain("no mark"));
        Assert.That(worse, Has.Some.Contains("r_peak_sensitivity, ecg, all points").Or.Some.Contains("r_peak_sensitivity, ecg, the only point"));
    }

    // 5 seeds in which only the first meets the requirement: 2 / 2^5 by counting.
    [Test]
    public void Of_OnePoint_CountsRunsThatMeet()
    {
        MetRuns met = MetAt(subjects: 1);
        Assert.That((met.Both, met.OnlyFirst, met.OnlySecond, met.Neither), Is.EqualTo((3L, 5L, 0L, 2L)));
        Assert.That(met.ExactP, Is.EqualTo(0.0625).Within(1e-12));
        Assert.That(MetAt(subjects: 2).ExactP, Is.Null, "runs share seeds");
    }

    // One run of ten falls below; with 10 seeds no difference can be shown, but the requirement is lost.
    [Test]
    public void Gate_RequirementLost_FailsOnlyWhereEachPointIsRequired()
    {
        StudyPlan one = Pairs.Two(Small(KnownDetector.Plan([24], 10, limit: 0.999)));
        Assert.That(new Gate(Lost(one), new Dictionary<string, double>()).Worse.Single(), Does.Contain("was met and no longer is"));
        StudyPlan search = Pairs.Two(Small(KnownDetector.Plan([24, 12], 10, limit: 0.999)));
        Gate gate = new(Lost(search), new Dictionary<string, double>());
        Assert.That(gate.Worse, Is.Empty);
        Assert.That(gate.Cases.Where(c => c.Text.StartsWith("For information", StringComparison.Ordinal)).Select(c => c.Outcome), Is.EqualTo(new[] { JUnitOutcome.Passed }));
    }

    [Test]
    public void Of_Runs_AreThoseThatDifferMost()
    {
        StudyPlan two = Pairs.Two(Small(KnownDetector.Plan([24], 9)));
        Comparison comparison = Comparison.Of(Pairs.Of(two, Enumerable.Range(0, 18).Select(run =>
            KnownDetector.RowOf(run, run % 2 == 0 ? new DetectionCounts(60, 0, 0) : new DetectionCounts(60 - (run / 2), run / 2, 0)))));
        DifferingRun[] runs = [.. comparison.Runs.Where(r => r.Figure.Name == "r_peak_sensitivity")];
        Assert.That(runs.Select(r => r.Seed), Is.EqualTo(new ulong[] { 9, 8, 7, 6, 5 }));
        Assert.That((runs[0].First, runs[0].Second), Is.EqualTo((1.0, 52.0 / 60)));
    }

    internal static StudyPlan Small(StudyPlan plan, int resamples = 300) => plan with { FailurePoint = new FailurePointSettings { Resamples = resamples } };

    private static Comparison Lost(StudyPlan two) => Comparison.Of(Pairs.Of(two, Enumerable.Range(0, (int)two.RunCount).Select(run =>
        KnownDetector.RowOf(run, run == 1 ? new DetectionCounts(58, 2, 0) : new DetectionCounts(60, 0, 0)))));

    private static MetRuns MetAt(int subjects)
    {
        StudyPlan two = Pairs.Two(Small(KnownDetector.Plan([24], 10, subjects, limit: 0.9)));
        return Comparison.Of(Pairs.Of(two, Enumerable.Range(0, (int)two.RunCount).Select(run =>
        {
            RunKey key = two.KeyOf(run);
            bool isMet = key.Detector == 0 ? key.Seed < 8 : key.Seed < 3;
            return KnownDetector.RowOf(run, isMet ? new DetectionCounts(60, 0, 0) : new DetectionCounts(30, 30, 0));
        }))).Overall[0].Met!;
    }
}
