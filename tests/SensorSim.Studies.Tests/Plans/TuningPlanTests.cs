// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>Constants are chosen on their own seeds, then scored on others. Rows made by hand, so the best is known.</summary>
[TestFixture]
public sealed class TuningPlanTests
{
    private const string Study = """
        seeds = [1, 2, 3]
        [[vary]]
        key = "heart.rate_bpm"
        values = [60, 90]
        [[vary]]
        key = "detector.threshold"
        values = [1, 2, 3]
        [[detector]]
        label = "a"
        constants = { other = 7 }
        [[detector]]
        label = "b"
        [requirements]
        r_peak_REQUIRED
        r_peak_positive_predictivity_min = 0.5
        [tuning]
        seeds = [70, 71]
        """;

    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [Test]
    public void Split_IsAllPointsOnTheTuningSeeds()
    {
        StudyPlan plan = Read("sensitivity_min = 0.9");
        StudyPlan tune = TuningPlan.Split(plan);

        Assert.That((tune.RunCount, tune.Tuning), Is.EqualTo((6L * 2 * 2, (TuningSettings?)null)));
        Assert.That(tune.Seeds, Is.EqualTo(new ulong[] { 70, 71 }));
        Assert.That(tune.Points, Is.SameAs(plan.Points));
        Assert.That(() => TuningPlan.Split(tune), Throws.ArgumentException);
    }

    [Test]
    public void Choose_Sensitivity_TakesTheLargestPooled()
    {
        StudyPlan plan = Read("sensitivity_min = 0.9");
        StudyPlan tune = TuningPlan.Split(plan);

        // Beats found of 100. Detector a: at 60 bpm threshold 3 is best, at 90 bpm 1 is; pooled 2 is (95 and 85). Detector b: 3.
        int[,,] found = { { { 90, 95, 99 }, { 86, 85, 20 } }, { { 50, 60, 70 }, { 50, 60, 70 } } };
        (StudyPlan score, IReadOnlyList<TunedConstants> chosen) = TuningPlan.Choose(plan, Results(
            tune, (detector, rate, threshold) => Row(found[detector, rate, threshold], 100, 0, 0)));

        Assert.That(chosen.Select(c => c.Constants.Single()), Is.EqualTo(new[] { ("detector.threshold", 2.0), ("detector.threshold", 3.0) }));
        Assert.That(chosen.Select(c => c.Figure), Is.EqualTo(new double?[] { 0.9, 0.7 }));
        Assert.That(score.Detectors[0].Constants, Is.EqualTo(new Dictionary<string, double> { ["detector.other"] = 7, ["detector.threshold"] = 2 }));
        Assert.That(score.Detectors[1].Constants, Is.EqualTo(new Dictionary<string, double> { ["detector.threshold"] = 3 }));
    }

    [Test]
    public void Choose_Score_IsThePointsOfTheScenarioOnTheStudysSeeds()
    {
        StudyPlan plan = Read("sensitivity_min = 0.9");
        StudyPlan score = TuningPlan.Choose(plan, Results(TuningPlan.Split(plan), (_, _, _) => Row(1, 1, 0, 0))).Score;

        Assert.That(score.Factors.Select(f => f.Key.Name), Is.EqualTo(new[] { "heart.rate_bpm" }));
        Assert.That(score.Points.Select(p => (p.Index, p.Values.Single())), Is.EqualTo(new (int, object)[] { (0, 60.0), (1, 90.0) }));
        Assert.That(score.Seeds, Is.EqualTo(new ulong[] { 1, 2, 3 }));
        Assert.That((score.Tuning, score.RunCount), Is.EqualTo(((TuningSettings?)null, 2L * 3 * 2)));
        Assert.That(RunMaker.ConstantsAt(score, 1, 0)["detector.threshold"], Is.EqualTo(1), "equally good: the first");
    }

    [Test]
    public void Choose_Bias_TakesTheSmallestMagnitude()
    {
        StudyPlan plan = Read("timing_bias_ms_max = 5");
        int[] biasMs = [-3, 2, 4];
        IReadOnlyList<TunedConstants> chosen = TuningPlan.Choose(plan, Results(
            TuningPlan.Split(plan), (_, _, threshold) => Row(10, 10, 10, biasMs[threshold]))).Chosen;

        Assert.That(chosen.Select(c => (c.Constants.Single().Value, c.Figure)), Is.EqualTo(new (double, double?)[] { (2, 2), (2, 2) }));
    }

    [Test]
    public void Choose_Undefined_IsWorseThanAny()
    {
        StudyPlan plan = Read("timing_bias_ms_max = 5");
        IReadOnlyList<TunedConstants> chosen = TuningPlan.Choose(plan, Results(
            TuningPlan.Split(plan), (detector, _, threshold) => Row(10, 10, threshold == 2 && detector == 0 ? 10 : 0, 400))).Chosen;

        Assert.That(chosen.Select(c => (c.Constants.Single().Value, c.Figure)), Is.EqualTo(new (double, double?)[] { (3, 400), (1, null) }));
    }

    [Test]
    public void Choose_NoSuchRow_IsToldAtTheRequirement()
    {
        StudyPlan plan = Read("sensitivity_min = 0.9");
        StudyPlan tune = TuningPlan.Split(plan);
        var none = new StudyResults(tune, Results(tune, (_, _, _) => Row(1, 1, 0, 0)).Rows.Select(r => r with { Events = [] }));

        var e = Assert.Throws<ScenarioException>(() => TuningPlan.Choose(plan, none));
        Assert.That(e!.Message, Does.Contain("a.toml, line 16, column 26: requirements.r_peak_sensitivity_min decides what is best, and no run has such a figure"));
    }

    private static StudyResults Results(StudyPlan tune, Func<int, int, int, EventRow> events) => new(tune, Enumerable.Range(0, (int)tune.RunCount).Select(run =>
    {
        RunKey key = tune.KeyOf(run);
        return new RunRow
        {
            Run = run,
            Verdict = Verdict.Answered,
            VerdictReason = "",
            SampleCount = 1,
            MarkCount = 1,
            ScoredNs = 1,
            Events = [events(key.Detector, key.Point / 3, key.Point % 3)],
            Readings = [],
        };
    }));

    private static EventRow Row(long matched, long reference, long timed, long biasMs) => new()
    {
        Channel = ChannelName.Ecg,
        Kind = MarkKind.RPeak,
        Counts = new DetectionCounts(matched, reference - matched, 0),
        TimedCount = timed,
        TimingSumNs = (Int128)timed * biasMs * 1_000_000,
        TimingSquaresNs = (Int128)timed * biasMs * biasMs * 1_000_000_000_000,
        TimingP95Ns = null,
        UnusableTruth = 0,
        UnusableDetections = 0,
    };

    private StudyPlan Read(string required) => _folder.Read(Study.Replace("REQUIRED", required, StringComparison.Ordinal));
}
