// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files.Tables;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class SweepResultsTests
{
    /// <summary>Two points, two seeds; numbers small enough to be pooled by hand.</summary>
    private static readonly RunRow[] s_rows =
    [
        Row(0, matched: 10, missed: 0, extra: 1, 4_000_000, 6_000_000),
        Row(1, matched: 8, missed: 2, extra: 0, -2_000_000, 2_000_000),
        Row(2, matched: 5, missed: 5, extra: 5, 1_000_000, 1_000_000),
        Row(3, matched: 6, missed: 4, extra: 5, 1_000_000, 3_000_000),
    ];

    [Test]
    public void Figures_OfAPoint_ArePooledOverItsRuns()
    {
        SweepResults results = Results(s_rows);
        Assert.That(results.Figures.Select(f => (f.Requirement.Definition.Key.Key, f.Point, f.Pool.Figure, f.IsMet)), Is.EqualTo(new (string, int, double?, bool)[]
        {
            ("r_peak_sensitivity_min", 0, 18.0 / 20, true),
            ("r_peak_sensitivity_min", 1, 11.0 / 20, false),
            ("r_peak_timing_bias_ms_max", 0, 2.5, true),
            ("r_peak_timing_bias_ms_max", 1, 1.5, true),
        }));
        Assert.That(results.Figures.Select(f => f.EventCount), Is.EqualTo(new[] { 20, 20, 4, 4 }));
    }

    [Test]
    public void IsMet_OfAStudyThatLooksForFailurePoints_IsNotAboutRequirements()
    {
        Assert.That(Results(s_rows).LooksForFailurePoints);
        Assert.That(Results(s_rows).IsMet, Is.True, "falling short at some level is what the study is for");
        SweepResults crashed = Results([.. s_rows[..3], s_rows[3] with { Verdict = Verdict.Crashed, VerdictReason = "why, \"so\"" }]);
        Assert.That((crashed.IsMet, crashed.UnansweredCount), Is.EqualTo((false, 1L)));
    }

    [Test]
    public void IsMet_OfAStudyWithoutLevels_IsAboutRequirements()
    {
        StudyPlan plan = SmallStudy.Plan([12], seeds: 4);
        Assert.That(Results(s_rows, plan).LooksForFailurePoints, Is.False);
        Assert.That(Results(s_rows, plan).IsMet, Is.False);
        Assert.That(Results(s_rows, plan with { Requirements = [SmallStudy.Requirement("r_peak_sensitivity_min", 0.7)] }).IsMet, Is.True, "29 of 40");
        StudyPlan without = plan with { Requirements = [SmallStudy.Requirement("arrival_time_sd_ms_max", 10)] };
        Assert.That(Results(s_rows, without).WithoutRows.Select(r => r.Key.Key), Is.EqualTo(new[] { "arrival_time_sd_ms_max" }));
        Assert.That(Results(s_rows, without).IsMet, Is.False, "what no row speaks of is not met");
    }

    [Test]
    public void Json_OfAStudy_HoldsNoPathAndIsComplete()
    {
        SweepResults results = Results(s_rows);
        using var stream = new MemoryStream();
        SweepJson.Write(stream, results);
        using JsonDocument document = JsonDocument.Parse(stream.ToArray());
        JsonElement root = document.RootElement;
        Assert.That(root.GetProperty("schema_version").GetInt32(), Is.EqualTo(1));
        Assert.That(root.GetProperty("identity").GetString(), Is.EqualTo(results.Identity.OfAll));
        Assert.That(root.GetProperty("made_run_count").GetInt32(), Is.EqualTo(4));
        JsonElement second = root.GetProperty("requirements")[1];
        Assert.That(second.GetProperty("figure").GetDouble(), Is.EqualTo(0.55));
        Assert.That(second.GetProperty("values").GetProperty("ecg_noise.muscle_snr_db").GetDouble(), Is.EqualTo(-6));
        Assert.That(second.GetProperty("met").GetBoolean(), Is.False);
        Assert.That(root.GetProperty("detectors")[0].GetProperty("answered_run_count").GetInt32(), Is.EqualTo(4));
        Assert.That(SweepJson.IsMet(stream.ToArray()), Is.True);
        Assert.That(System.Text.Encoding.UTF8.GetString(stream.ToArray()), Does.Not.Contain("s.toml").And.Not.Contain("noise.toml"));
    }

    [Test]
    public void RunTable_OfRows_IsWide()
    {
        SweepResults results = Results([.. s_rows[..3], s_rows[3] with { Verdict = Verdict.Crashed, VerdictReason = "why, \"so\"" }]);
        using var stream = new MemoryStream();
        TableCsv.Write(stream, RunTable.Of(results.Rows));
        string[] lines = System.Text.Encoding.UTF8.GetString(stream.ToArray()).TrimEnd('\n').Split('\n');

        // Bias and standard deviation by hand: errors 4 and 6 ms give 5 and √2; the sums in ns are 10⁷ and 16·10¹² + 36·10¹².
        Assert.That(lines[0], Is.EqualTo(
            "run,point,seed,subject_seed,detector,ecg_noise_muscle_snr_db,verdict,verdict_reason,sample_count,mark_count,scored_ns,"
            + "ecg_r_peak_matched,ecg_r_peak_missed,ecg_r_peak_extra,ecg_r_peak_timed_count,ecg_r_peak_timing_sum_ns,ecg_r_peak_timing_squares_ns2,"
            + "ecg_r_peak_timing_bias_ms,ecg_r_peak_timing_sd_ms,ecg_r_peak_timing_p95_ns,ecg_r_peak_unusable_reference_count,ecg_r_peak_unusable_detection_count"));
        Assert.That(lines[1], Does.StartWith("0,0,7,,detector 1,12,answered,,1000,11,5000000000,10,0,1,2,10000000,52000000000000,5,1.414213562373095"));
        Assert.That(lines[4], Does.StartWith("3,1,8,,detector 1,-6,crashed,\"why, \"\"so\"\"\",1000,"));
    }

    [Test]
    public void RunTable_OfRealRuns_HasTheirReadingsAndPersons()
    {
        StudyPlan plan = SmallStudy.Plan([12], seeds: 1) with { SubjectSeeds = [4, 5] };
        NumberKey duration = (NumberKey)AllKeys.Find("scenario.duration_s")!;
        plan = plan with { Scenario = plan.Scenario.With([new KeyValue(duration, 30)]) };
        IReadOnlyList<RunRow> rows = SweepRunner.Run(plan, new FullPlanner(plan), SmallStudy.Factories(plan), new MemoryLog(), 2);
        ColumnTable table = RunTable.Of(new StudyResults(plan, rows));

        Assert.That(Whole(table, "subject_seed"), Is.EqualTo(new long?[] { 4, 5 }));
        ReadingRow first = rows[0].Readings.First(r => r.Count > 0);
        string name = $"{first.Channel.Text()}_{first.Kind.Text()}";
        Assert.That(Whole(table, $"{name}_count")[0], Is.EqualTo(first.Count));
        Assert.That(table.Columns.Single(c => c.Name == $"{name}_bias").Unit, Is.EqualTo(first.Kind.Info().ValueUnit));
    }

    private static long?[] Whole(ColumnTable table, string name) =>
        [.. Enumerable.Range(0, table.RowCount).Select(((WholeColumn)table.Columns.Single(c => c.Name == name)).At)];

    private static SweepResults Results(RunRow[] rows, StudyPlan? plan = null)
    {
        plan ??= SmallStudy.Plan(seeds: 2);
        return new SweepResults(new StudyResults(plan, rows), SmallStudy.Identity(plan));
    }

    private static RunRow Row(long run, long matched, long missed, long extra, params long[] errorsNs) => new()
    {
        Run = run,
        Verdict = Verdict.Answered,
        VerdictReason = "",
        SampleCount = 1000,
        MarkCount = matched + extra,
        ScoredNs = 5_000_000_000,
        Readings = [],
        Events =
        [
            new EventRow
            {
                Channel = ChannelName.Ecg,
                Kind = MarkKind.RPeak,
                Counts = new DetectionCounts(matched, missed, extra),
                TimedCount = errorsNs.Length,
                TimingSumNs = errorsNs.Sum(),
                TimingSquaresNs = errorsNs.Aggregate((Int128)0, (sum, e) => sum + ((Int128)e * e)),
                TimingP95Ns = errorsNs.Max(),
                UnusableTruth = 0,
                UnusableDetections = 0,
            },
        ],
    };
}
