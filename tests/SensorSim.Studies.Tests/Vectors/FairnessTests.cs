// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>
/// Acceptance is fair: truth itself, turned into answers, meets every requirement; what is shifted, dropped, doubled or given where nothing may be fails and
/// is named; and shares are those that the scorer counts on the same run.
/// </summary>
[TestFixture]
public sealed class FairnessTests
{
    private static readonly string s_all =
        TestCases.Requirement("ECG", "r_peak", "marks", "sensitivity_min = 1\npositive_predictivity_min = 1\n", "ecg")
        + TestCases.Requirement("FOOT", "pulse_foot_tangent", "marks", "sensitivity_min = 1\npositive_predictivity_min = 1\n", "infrared")
        + TestCases.Requirement("RATE", "heart_rate_bpm", "readings", "error_max = 0.01\n", "ecg")
        + TestCases.Requirement("PAT", "arrival_time_ms", "readings", "error_max = 0.01\n", "infrared")
        + TestCases.Requirement("OXY", "spo2_percent", "readings", "error_max = 0.01\n", "infrared")
        + TestCases.Requirement("SOON", "r_peak", "prompt", "latency_ms_max = 300\n", "ecg");

    private static readonly string s_off =
        TestCases.Requirement("OFF", "r_peak", "withheld", "", "ecg")
        + TestCases.Requirement("OFFRATE", "heart_rate_bpm", "withheld", "", "ecg")
        + TestCases.Requirement("GATE", "gate_shut", "shown", "within_s = 2\nvalue = 2\n", "ecg");

    private static readonly string s_still = TestCases.Requirement("OFFRATE", "heart_rate_bpm", "withheld", "", "ecg") + TestCases.Requirement("OFF", "r_peak", "withheld", "", "ecg");

    private static IEnumerable<TestCaseData> Scenarios()
    {
        yield return new TestCaseData("rest-finger.toml", 30, "").SetName("{m}(rest)");
        yield return new TestCaseData("disturbances/ecg-lead-off.toml", 150, s_off).SetName("{m}(lead off)");
        yield return new TestCaseData("disturbances/two-devices.toml", 40, "").SetName("{m}(two devices)");
        yield return new TestCaseData("rhythms/asystole.toml", 30, s_still).SetName("{m}(asystole)");
        yield return new TestCaseData("rhythms/ventricular-bigeminy.toml", 40, "").SetName("{m}(bigeminy)");
        yield return new TestCaseData("rhythms/atrial-fibrillation.toml", 40, "").SetName("{m}(fibrillation)");
    }

    [TestCaseSource(nameof(Scenarios))]
    public void PerfectAnswers_MeetEverything_AndTheScorerAgrees(string scenario, double seconds, string more)
    {
        PlannedCase planned = TestCases.Case(s_all + more, seconds, scenario, level: more.Length > 0 ? "must_refuse" : "pass");
        MadeRun run = TestCases.Make(planned);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, run.Truth, run.Acquisition);
        IReadOnlyList<RequirementVerdict> perfect = Judge.Case(planned, rows, PerfectAnswers.Of(planned, run));
        Assert.That(perfect.Where(v => v.Outcome != RequirementOutcome.Met).Select(v => $"{v.RequirementId}: {v.Sentence}"), Is.Empty);

        // The library's answers: counts must be the scorer's.
        IReadOnlyList<RequirementVerdict> ours = Judge.Case(planned, rows, run.Answers);
        foreach ((string id, ChannelName channel, MarkKind kind) in new[] { ("ECG", ChannelName.Ecg, MarkKind.RPeak), ("FOOT", ChannelName.Infrared, MarkKind.PulseFootTangent) })
        {
            EventScore score = run.Outcome.Report!.Scores.Single(s => s.Channel == channel && s.Kind == kind);
            RequirementVerdict verdict = ours.Single(v => v.RequirementId == id);
            Assert.That(
                verdict.Figures.Take(3).Select(f => f.Value), Is.EqualTo(new double?[] { score.Matched + score.Missed, score.Matched, score.Extra }), id);
        }
    }

    // The scorer judges each reading by its own window, acceptance by the widest sensible one: what is right there is right here.
    [TestCase("rest-finger.toml", 60)]
    [TestCase("rhythms/ventricular-bigeminy.toml", 60)]
    [TestCase("exercise.toml", 600)]
    public void RightReadingsOfTheScorer_AreRightHere(string scenario, double seconds)
    {
        string requirements = TestCases.Requirement("RATE", "heart_rate_bpm", "readings", "error_max = 5\nerror_percent_max = 10\n", "ecg")
            + TestCases.Requirement("LIGHT", "heart_rate_bpm", "readings", "error_max = 5\nerror_percent_max = 10\n", "infrared")
            + TestCases.Requirement("FUSED", "heart_rate_fused_bpm", "readings", "error_max = 5\nerror_percent_max = 10\n")
            + TestCases.Requirement("PAT", "arrival_time_ms", "readings", "error_max = 10\n", "infrared")
            + TestCases.Requirement("SPOT", "arrival_spot_ms", "readings", "error_max = 10\n", "infrared")
            + TestCases.Requirement("OXY", "spo2_percent", "readings", "error_max = 4\n", "infrared");
        PlannedCase planned = TestCases.Case(requirements, seconds, scenario);
        MadeRun run = TestCases.Make(planned);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, run.Truth, run.Acquisition);

        foreach (RequirementVerdict verdict in Judge.Case(planned, rows, run.Answers))
        {
            PlannedRequirement requirement = planned.Requirements.Single(r => r.Id == verdict.RequirementId);
            long wrong = run.Readings.Count(r => r.IsWrong && r.Mark.Kind == requirement.Kind && (requirement.Channel is null || r.Mark.Channel == requirement.Channel));
            Assert.That(verdict.Figures.Single(f => f.Name == "wrong_count").Value, Is.LessThanOrEqualTo(wrong), $"{verdict.RequirementId}: {verdict.Sentence}");
        }
    }

    [Test]
    public void SpoiltAnswers_FailAndAreNamed()
    {
        PlannedCase planned = TestCases.Case(s_all + s_off, 150, "disturbances/ecg-lead-off.toml", level: "must_refuse");
        MadeRun run = TestCases.Make(planned);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, run.Truth, run.Acquisition);
        List<DetectionRow> right = PerfectAnswers.Of(planned, run);
        int peak = right.FindIndex(a => a.Kind == MarkKind.RPeak && rows.Any(r => r.Rule == AcceptanceRule.One && a.TimeNs >= r.BeginNs && a.TimeNs <= r.EndNs && a.Kind == r.Kind));
        AcquisitionRow off = run.Acquisition.First(r => r.IsUnusable && r.Channel == ChannelName.Ecg && r.EndNs - r.BeginNs > 3_000_000_000);

        DetectionRow before = right.Where(a => a.Kind == MarkKind.HeartRateBpm && a.TimeNs < off.BeginNs).MaxBy(a => a.TimeNs);
        Assert.That(Failed(right), Is.Empty);
        Assert.That(Failed([.. right.Where((_, i) => i != peak)]), Is.EqualTo(new[] { "ECG", "SOON" }), "dropped");
        Assert.That(Failed([.. right, right[peak] with { TimeNs = right[peak].TimeNs + 20_000_000 }]), Is.EqualTo(new[] { "ECG" }), "doubled");
        Assert.That(Failed([.. right.Select((a, i) => i == peak ? a with { TimeNs = a.TimeNs + 200_000_000 } : a)]), Is.EqualTo(new[] { "ECG", "SOON" }), "shifted");
        Assert.That(Failed([.. right.Select((a, i) => i == peak ? a with { TimeNs = a.TimeNs + 149_000_000, EmittedTimeNs = a.EmittedTimeNs + 149_000_000 } : a)]), Is.Empty, "shifted within the window");
        Assert.That(Failed([.. right.Select(a => a.Kind == MarkKind.RPeak ? a with { EmittedTimeNs = a.TimeNs + 301_000_000 } : a)]), Is.EqualTo(new[] { "SOON" }), "late");
        Assert.That(Failed([.. right.Select(a => a.Kind == MarkKind.HeartRateBpm ? a with { Value = a.Value + 30 } : a)]), Is.EqualTo(new[] { "RATE" }), "another rate");
        Assert.That(Failed([.. right.Select(a => a.Kind == MarkKind.Spo2Percent ? a with { Value = a.Value - 1 } : a)]), Is.EqualTo(new[] { "OXY" }), "less oxygen");
        Assert.That(Failed([.. right.Select(a => a.Kind == MarkKind.ArrivalTimeMs ? a with { Value = a.Value + 60 } : a)]), Is.EqualTo(new[] { "PAT" }), "a later pulse");
        Assert.That(Failed([.. right, right[peak] with { TimeNs = off.BeginNs + 1_500_000_000 }]), Is.EqualTo(new[] { "OFF" }), "a beat without electrodes");
        Assert.That(
            Failed([.. right, before with { TimeNs = off.BeginNs + 1_500_000_000 }]), Is.EqualTo(new[] { "OFFRATE" }), "a rate without electrodes");
        Assert.That(
            Failed([.. right, before with { TimeNs = off.BeginNs + 1_500_000_000, Value = 250 }]), Is.EqualTo(new[] { "RATE", "OFFRATE" }), "another rate without electrodes");
        Assert.That(Failed([.. right.Where(a => a.Kind != MarkKind.GateShut)]), Is.EqualTo(new[] { "GATE" }), "no gate");

        List<string> Failed(List<DetectionRow> answers) =>
            [.. Judge.Case(planned, rows, answers).Where(v => v.Outcome != RequirementOutcome.Met).Select(v => v.RequirementId)];
    }
}
