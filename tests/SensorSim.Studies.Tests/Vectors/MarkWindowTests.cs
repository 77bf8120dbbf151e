// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Windows around events, computed by hand: window 150 ms to either side (EC57, from memory), lead-in 8 s, last second off, as the scoring base says.</summary>
[TestFixture]
public sealed class MarkWindowTests
{
    private const long Ms = 1_000_000;
    private static readonly string s_marks = TestCases.Requirement("E", "r_peak", "marks", "sensitivity_min = 0.9\npositive_predictivity_min = 0.9\n");

    [Test]
    public void Of_Beats_HaveWindowsAndNothingBetween()
    {
        // The beat of 7.9 s is in the lead-in: no window of its own, and its late mark is not extra. 10 ms of delay are declared.
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            TestCases.Case(s_marks, 20), [TestCases.Beat(7.9, 1), TestCases.Beat(9, 2), TestCases.Beat(10, 3, TruthFlags.Optional)], TestCases.Acquisition(20, 10));

        Assert.That(rows.Select(r => (r.Rule, r.BeginNs, r.EndNs, r.BeatId)), Is.EqualTo(new[]
        {
            (AcceptanceRule.None, (8060 * Ms) + 1, (8860 * Ms) - 1, -1L),
            (AcceptanceRule.One, 8860 * Ms, 9160 * Ms, 2L),
            (AcceptanceRule.None, (9160 * Ms) + 1, (9860 * Ms) - 1, -1L),
            (AcceptanceRule.None, (10_160 * Ms) + 1, (19_000 * Ms) - 1, -1L),
        }));
    }

    [Test]
    public void Of_BeatsCloserThanTwoWindows_PartInTheMiddle()
    {
        AcceptanceRow[] ones = [.. AcceptanceWindows.Of(TestCases.Case(s_marks, 20), [TestCases.Beat(9, 1), TestCases.Beat(9.2, 2)], TestCases.Acquisition(20))
            .Where(r => r.Rule == AcceptanceRule.One)];

        Assert.That(ones.Select(r => (r.BeginNs, r.EndNs)), Is.EqualTo(new[] { (8850 * Ms, 9100 * Ms), ((9100 * Ms) + 1, 9350 * Ms) }));
    }

    [Test]
    public void Of_UnusableOrWithheld_AsksNothingThere()
    {
        PlannedCase planned = TestCases.Case(s_marks, 20, more: "withhold_s = [[12, 14]]");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned, [TestCases.Beat(10, 1), TestCases.Beat(13, 2), TestCases.Beat(16, 3)], TestCases.Acquisition(20, 0, ("unusable_lead_off", 9.5, 11)));

        Assert.That(rows.Where(r => r.Rule == AcceptanceRule.One).Select(r => r.BeatId), Is.EqualTo(new[] { 3L }));
        Assert.That(rows.Where(r => r.Rule == AcceptanceRule.None).Select(r => (r.BeginNs / Ms, (r.EndNs + 1) / Ms)), Is.EqualTo(new[] { (8000L, 9500L), (11_000L, 12_000L), (14_000L, 15_850L), (16_150L, 19_000L) }));
    }

    [Test]
    public void Of_PartOfTheCase_LooksAtThatAlone()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("E", "r_peak", "marks", "sensitivity_min = 1\nfrom_s = 12\nuntil_s = 14\n"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(11, 1), TestCases.Beat(13, 2), TestCases.Beat(15, 3)], TestCases.Acquisition(20));

        Assert.That(rows.Where(r => r.Rule == AcceptanceRule.One).Select(r => r.BeatId), Is.EqualTo(new[] { 2L }));
        Assert.That(rows.Min(r => r.BeginNs), Is.EqualTo(12_000 * Ms));
        Assert.That(rows.Max(r => r.EndNs), Is.EqualTo((14_000 * Ms) - 1));
    }

    // 4 events. Found 3 (9.0, 10.1, 11.0), missed 12; the second mark at 11.05 and the one at 11.5 are extra: Se 3/4, +P 3/5.
    [Test]
    public void Judge_MissedDoubledAndExtra_AreCounted()
    {
        PlannedCase planned = TestCases.Case(s_marks, 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [.. Enumerable.Range(9, 4).Select(i => TestCases.Beat(i, i))], TestCases.Acquisition(20));
        RequirementVerdict verdict = Judge.Case(planned, rows, new[] { 9, 10.1, 11, 11.05, 11.5 }.Select(t => TestCases.Mark(MarkKind.RPeak, t))).Single();

        Assert.That(verdict.Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(verdict.Figures.Select(f => f.Value), Is.EqualTo(new double?[] { 4, 3, 2, 0.75, 0.6 }));
        Assert.That(verdict.Sentence, Is.EqualTo("3 of 4 found, 2 extra, first missed at 12.000 s, first extra at 11.050 s; sensitivity 0.75, at least 0.9 is required; positive predictivity 0.6, at least 0.9 is required"));
        Assert.That(verdict.FirstFaultNs, Is.EqualTo(11_050 * Ms));
    }

    [Test]
    public void Judge_Silence_IsNotMet()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("E", "r_peak", "marks", "positive_predictivity_min = 0.9\n"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));

        Assert.That(Judge.Case(planned, rows, Array.Empty<SensorSim.Files.Rows.DetectionRow>()).Single().Outcome, Is.EqualTo(RequirementOutcome.NotMet));
    }

    [Test]
    public void Judge_KnownDeviation_IsOursAlone()
    {
        PlannedCase planned = TestCases.Case(s_marks, 20, more: "[[case.deviation]]\nrequirement = \"E\"\nreason = \"too few\"\n");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));
        SensorSim.Files.Rows.DetectionRow[] right = [TestCases.Mark(MarkKind.RPeak, 10)];

        Assert.That(Judge.Case(planned, rows, Array.Empty<SensorSim.Files.Rows.DetectionRow>(), isOwnLibrary: true).Single().Outcome, Is.EqualTo(RequirementOutcome.KnownDeviation));
        Assert.That(Judge.Case(planned, rows, Array.Empty<SensorSim.Files.Rows.DetectionRow>()).Single().Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(Judge.Case(planned, rows, right, isOwnLibrary: true).Single().IsDeviationIdle);
    }

    // A latency of 500 ms is allowed: the beat of 10 s must be told by 10.5 s.
    [TestCase(10, 500, RequirementOutcome.Met)]
    [TestCase(10, 501, RequirementOutcome.NotMet)]
    [TestCase(11, 0, RequirementOutcome.NotMet)]
    public void Judge_Prompt_CountsFromTheEvent(double atS, double lateMs, RequirementOutcome expected)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("L", "r_peak", "prompt", "latency_ms_max = 500\n"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));

        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.RPeak, atS, lateMs: lateMs)]).Single().Outcome, Is.EqualTo(expected));
    }

    // Told before it was: the file's times cannot be, and count for nothing.
    [Test]
    public void Judge_PromptBeforeItsOwnTime_IsNotTold()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("L", "r_peak", "prompt", "latency_ms_max = 500\n"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));

        RequirementVerdict early = Judge.Case(planned, rows, [TestCases.Mark(MarkKind.RPeak, 10, lateMs: -1)]).Single();
        Assert.That(early.Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(early.Sentence, Is.EqualTo(
            "0 of 1 events told within 500 ms, first late or missing at 10.000 s; 1 say that they were emitted before the time that they tell of, and count as not told; at least a share of 1 is required"));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.RPeak, 10, lateMs: 0)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
    }

    // Two of three in time, the slowest 700 ms after its event; two thirds are enough when the plan says so.
    [TestCase("share_min = 0.66\n", RequirementOutcome.Met)]
    [TestCase("", RequirementOutcome.NotMet)]
    public void Judge_PromptShare_OfTheEvents(string share, RequirementOutcome expected)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("L", "r_peak", "prompt", "latency_ms_max = 500\n" + share), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1), TestCases.Beat(11, 2), TestCases.Beat(12, 3)], TestCases.Acquisition(20));
        RequirementVerdict verdict = Judge.Case(
            planned, rows, [TestCases.Mark(MarkKind.RPeak, 10, lateMs: 500), TestCases.Mark(MarkKind.RPeak, 11, lateMs: 700), TestCases.Mark(MarkKind.RPeak, 12, lateMs: 900), TestCases.Mark(MarkKind.RPeak, 12.01, lateMs: 100)]).Single();

        Assert.That(verdict.Outcome, Is.EqualTo(expected));
        Assert.That(verdict.Sentence, Does.StartWith("2 of 3 events told within 500 ms, the slowest 700 ms after its event, first late or missing at 11.000 s"));
    }

    // The last nanosecond of a window belongs to it, the next one does not; a mark of another channel is not looked at.
    [TestCase(150_000_000, ChannelName.Ecg, RequirementOutcome.Met)]
    [TestCase(-150_000_000, ChannelName.Ecg, RequirementOutcome.Met)]
    [TestCase(150_000_001, ChannelName.Ecg, RequirementOutcome.NotMet)]
    [TestCase(-150_000_001, ChannelName.Ecg, RequirementOutcome.NotMet)]
    [TestCase(0, ChannelName.Infrared, RequirementOutcome.NotMet)]
    public void Judge_EndsOfAWindow_AreInside(long offNs, ChannelName channel, RequirementOutcome expected)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("E", "r_peak", "marks", "sensitivity_min = 1\npositive_predictivity_min = 1\n", "ecg"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));
        SensorSim.Files.Rows.DetectionRow mark = TestCases.Mark(MarkKind.RPeak, 10, channel: channel);

        Assert.That(Judge.Case(planned, rows, [mark with { TimeNs = mark.TimeNs + offNs }]).Single().Outcome, Is.EqualTo(expected));
    }

    // Feet of any channel: both lights mark each pulse, and neither is one too many. A second mark of one of them is, and so is each between the windows.
    [TestCase("", 2, 0)]
    [TestCase("infrared", 2, 0)]
    [TestCase("", 2, 1, 10.05, "red")]
    [TestCase("infrared", 2, 0, 10.05, "red")]
    [TestCase("", 2, 1, 10.05, "infrared")]
    [TestCase("", 2, 1, 10.5, "red")]
    public void Judge_AnyChannel_CountsEachChannelOnce(string channel, int found, int extra, double moreAtS = 0, string moreOf = "")
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("F", "pulse_foot_tangent", "marks", "sensitivity_min = 1\npositive_predictivity_min = 1\n", channel), 20);
        ChannelName[] lights = [ChannelName.Infrared, ChannelName.Red];
        IEnumerable<TruthEvent> feet = lights.SelectMany(l => new[] { 10, 11 }.Select(t => TestCases.Beat(t, t) with { Channel = l, Kind = MarkKind.PulseFootTangent }));
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, feet, TestCases.Acquisition(20));
        List<SensorSim.Files.Rows.DetectionRow> marks = [.. lights.SelectMany(l => new[] { 10, 11 }.Select(t => TestCases.Mark(MarkKind.PulseFootTangent, t, channel: l)))];
        if (moreOf.Length > 0)
        {
            marks.Add(TestCases.Mark(MarkKind.PulseFootTangent, moreAtS, channel: moreOf == "red" ? ChannelName.Red : ChannelName.Infrared));
        }

        RequirementVerdict verdict = Judge.Case(planned, rows, marks).Single();
        Assert.That(verdict.Figures.Take(3).Select(f => f.Value), Is.EqualTo(new double?[] { 2, found, extra }));
        Assert.That(verdict.FirstFaultNs, Is.EqualTo(extra == 0 ? null : (long?)(long)(moreAtS * 1000) * Ms));
    }

    // Without an event the one thing to hold against is the marks that should not be; without that there is nothing.
    [Test]
    public void Judge_NoEvent_LeavesTheExtraMarks()
    {
        PlannedCase planned = TestCases.Case(s_marks, 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [], TestCases.Acquisition(20));
        PlannedCase found = TestCases.Case(TestCases.Requirement("E", "r_peak", "marks", "sensitivity_min = 0.9\n"), 20);

        RequirementVerdict silent = Judge.Case(planned, rows, Array.Empty<SensorSim.Files.Rows.DetectionRow>()).Single();
        Assert.That(silent.Outcome, Is.EqualTo(RequirementOutcome.Met));
        Assert.That(silent.Sentence, Does.EndWith("; nothing at all was given in this case"));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.RPeak, 10)]).Single().Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(
            Judge.Case(found, AcceptanceWindows.Of(found, [], TestCases.Acquisition(20)), [TestCases.Mark(MarkKind.RPeak, 10)]).Single().Outcome, Is.EqualTo(RequirementOutcome.NotJudged));
    }

    // Extra marks alone, or missed ones alone, fail alone: nine of ten found is enough for 0.9, with one extra the predictivity is 9 / 10.
    [TestCase(1, 0, RequirementOutcome.Met)]
    [TestCase(2, 0, RequirementOutcome.NotMet)]
    [TestCase(0, 1, RequirementOutcome.Met)]
    [TestCase(0, 2, RequirementOutcome.NotMet)]
    public void Judge_LimitsOfMarks_AreReachedByEqual(int missed, int extra, RequirementOutcome expected)
    {
        PlannedCase planned = TestCases.Case(
            TestCases.Requirement("E", "r_peak", "marks", FormattableString.Invariant($"sensitivity_min = 0.9\npositive_predictivity_min = {(extra > 0 ? 10 / 11.0 : 0.9)}\n")), 30);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [.. Enumerable.Range(10, 10).Select(i => TestCases.Beat(i, i))], TestCases.Acquisition(30));
        IEnumerable<SensorSim.Files.Rows.DetectionRow> marks = Enumerable.Range(10 + missed, 10 - missed).Select(i => TestCases.Mark(MarkKind.RPeak, i))
            .Concat(Enumerable.Range(0, extra).Select(i => TestCases.Mark(MarkKind.RPeak, 22.5 - i)));
        RequirementVerdict verdict = Judge.Case(planned, rows, marks).Single();

        Assert.That(verdict.Outcome, Is.EqualTo(expected));
        Assert.That(verdict.FirstFaultNs, Is.EqualTo(expected == RequirementOutcome.Met ? null : missed > 0 ? 10_000 * Ms : 21_500 * Ms));
    }

    [Test]
    public void Judge_PromptWithoutEmission_IsNotJudged()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("L", "r_peak", "prompt", "latency_ms_max = 500\n"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));
        var answers = CaseAnswers.Of(new[] { new AnswerRow("", TestCases.Mark(MarkKind.RPeak, 10), SaysWhenEmitted: false) });

        Assert.That(Judge.Case(planned, rows, answers).Single().Outcome, Is.EqualTo(RequirementOutcome.NotJudged));
    }
}
