// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Where nothing may be given, and what must be shown: stretches by hand.</summary>
[TestFixture]
public sealed class StretchRuleTests
{
    private const long Ms = 1_000_000;

    [Test]
    public void Of_Withheld_UnusableAndStandstillAndPlan()
    {
        // Beats up to 12 s and from 30 s on: nothing to read from 17 to 30 s. Off from 3 to 5 s, in the lead-in too. The plan withholds 34 to 36 s.
        PlannedCase planned = TestCases.Case(TestCases.Requirement("W", "heart_rate_bpm", "withheld", "grace_s = 0.5\n", "ecg"), 40, more: "withhold_s = [[34, 36]]");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned, Enumerable.Range(0, 13).Concat(Enumerable.Range(30, 10)).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(40, 0, ("unusable_lead_off", 3, 5)));

        Assert.That(rows.Select(r => (r.BeginNs / Ms, (r.EndNs + 1) / Ms)), Is.EqualTo(new[] { (3500L, 5000L), (17_500L, 30_000L), (34_500L, 36_000L) }));
        Assert.That(rows.All(r => r.Rule == AcceptanceRule.None));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, 3.4), TestCases.Mark(MarkKind.HeartRateBpm, 30)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
        RequirementVerdict given = Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, 20, 60)]).Single();
        Assert.That(given.Sentence, Is.EqualTo("1 given in 3 stretches, 15.5 s in all, where nothing may be; first at 20.000 s"));
    }

    [Test]
    public void Of_WithheldMarks_LeaveRoomForBeatsOutside()
    {
        // Off from 10 to 12 s; the beat of 9.95 s may be marked up to 10.1 s, that of 12.05 s from 11.9 s on; that of 11 s not at all.
        PlannedCase planned = TestCases.Case(TestCases.Requirement("W", "r_peak", "withheld"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned, new[] { 5, 9.95, 11, 12.05, 16 }.Select((t, i) => TestCases.Beat(t, i)), TestCases.Acquisition(20, 0, ("unusable_lead_off", 10, 12)));

        Assert.That(rows.Select(r => (r.BeginNs, r.EndNs)), Is.EqualTo(new[] { ((10_100 * Ms) + 1, (11_900 * Ms) - 1) }));
    }

    [Test]
    public void Of_ShownGate_AfterEachStretchThatCounts()
    {
        // In the lead-in: no gate need be open. 12 to 15 s counts; 18 s comes 3 s later, the gate is still shut. 30 to 30.5 s is over before the 2 s allowed.
        PlannedCase planned = TestCases.Case(TestCases.Requirement("G", "gate_shut", "shown", "within_s = 2\nvalue = 2\n", "ecg"), 60);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned,
            Enumerable.Range(0, 60).Select(i => TestCases.Beat(i, i)),
            TestCases.Acquisition(60, 0, ("unusable_lead_off", 0, 1), ("unusable_lead_off", 12, 15), ("unusable_lead_off", 18, 22), ("unusable_saturated", 40, 40.5)));

        Assert.That(rows.Select(r => (r.Rule, r.BeginNs, r.EndNs, r.EmittedByNs, r.Low)), Is.EqualTo(new[] { (AcceptanceRule.Some, 11_000 * Ms, 14_000 * Ms, (long?)(14_000 * Ms), 2.0) }));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 12.5, 2)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 12.5, 3)]).Single().Outcome, Is.EqualTo(RequirementOutcome.NotMet), "another reason");
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 12.5, 2, lateMs: 1501)]).Single().Outcome, Is.EqualTo(RequirementOutcome.NotMet), "told too late");
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 14.5, 2)]).Single().Sentence, Is.EqualTo("shown with the value 2 in 0 of 1 stretches; first missing by 14.000 s"));
    }

    [Test]
    public void Of_ShownRhythm_AfterEpisodesOfThirtySeconds()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("A", "irregular_rhythm", "shown", "within_s = 25\n"), 120);
        IEnumerable<TruthEvent> truth = Enumerable.Range(0, 120)
            .Select(i => TestCases.Beat(i, i) with { Label = i is (>= 20 and < 40) or (>= 60 and <= 100) ? BeatClass.AtrialArrhythmia : BeatClass.Normal });

        // 20 to 39 s is shorter than 30 s (episodes of EC57, from memory).
        Assert.That(AcceptanceWindows.Of(planned, truth, TestCases.Acquisition(120)).Select(r => (r.BeginNs, r.EndNs)), Is.EqualTo(new[] { (59_000 * Ms, 85_000 * Ms) }));
    }

    [Test]
    public void Of_ShownByThePlan_AnyKind()
    {
        PlannedCase planned = TestCases.Case(
            TestCases.Requirement("A", "gate_open", "shown", "within_s = 9\nfrom_s = 0\n", "ecg") + TestCases.Requirement("B", "pacing_spike", "shown", "within_s = 1\n"), 30, more: "withhold_s = [[10, 12]]");

        Assert.That(
            AcceptanceWindows.Of(planned, [], TestCases.Acquisition(30)).Select(r => (r.Requirement, r.BeginNs, r.EndNs)),
            Is.EqualTo(new[] { ("A", 0L, 9000 * Ms), ("B", 9000 * Ms, 11_000 * Ms) }));
    }

    // A pulse arrives from beat and light: unusable is what is unusable in either, whichever channel tells the arrival; a fused rate only where both are.
    [TestCase("arrival_time_ms", "infrared", "12-14 16-18")]
    [TestCase("arrival_spot_ms", "infrared", "12-14 16-18")]
    [TestCase("arrival_spread_ms", "infrared", "12-14 16-18")]
    [TestCase("systolic_mmhg", "infrared", "12-14 16-18")]
    [TestCase("diastolic_mmhg", "infrared", "12-14 16-18")]
    [TestCase("mean_mmhg", "infrared", "12-14 16-18")]
    [TestCase("pressure_trend_mmhg", "infrared", "12-14 16-18")]
    [TestCase("joint_gate_open", "infrared", "12-14 16-18")]
    [TestCase("spo2_percent", "", "16-18")]
    [TestCase("perfusion_index_percent", "", "16-18")]
    [TestCase("pulse_foot_tangent", "", "16-18")]
    [TestCase("r_peak", "", "12-14")]
    [TestCase("t_end", "", "12-14")]
    [TestCase("pacing_spike", "", "12-14")]
    [TestCase("rr_mean_ms", "", "12-14")]
    [TestCase("sdnn_ms", "", "12-14")]
    [TestCase("rmssd_ms", "", "12-14")]
    [TestCase("irregular_rhythm", "", "12-14")]
    [TestCase("regular_rhythm", "", "12-14")]
    [TestCase("heart_rate_bpm", "infrared", "16-18")]
    [TestCase("heart_rate_bpm", "ecg", "12-14")]
    [TestCase("heart_rate_fused_bpm", "", "")]
    [TestCase("respiration_rate_bpm", "", "")]
    public void Unusable_IsWhatTheKindIsMadeOf(string kind, string channel, string expected)
    {
        Assert.That(MarkKinds.TryParse(kind, out MarkKind parsed));
        List<SensorSim.Files.Rows.AcquisitionRow> rows = TestCases.Acquisition(40, 0, ("unusable_lead_off", 12, 14));
        rows.Add(new(ChannelName.Infrared, "unusable_saturated", 16_000 * Ms, 18_000 * Ms, double.NaN, "", ""));
        var time = new CaseTime(TestCases.Case(TestCases.Requirement("W", "heart_rate_bpm", "withheld", channel: "ecg"), 40), rows);
        ChannelName? own = channel.Length == 0 ? null : channel == "ecg" ? ChannelName.Ecg : ChannelName.Infrared;

        Assert.That(
            string.Join(' ', time.Unusable(parsed, own).Select(s => FormattableString.Invariant($"{s.BeginNs / (1000 * Ms)}-{s.EndNs / (1000 * Ms)}"))), Is.EqualTo(expected));
    }

    // Only a part of the case is looked at, and only up to its end.
    [Test]
    public void Of_WithheldInAPart_StaysThere()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("W", "r_peak", "withheld", "from_s = 13\nuntil_s = 15\n", "ecg"), 40);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned, Enumerable.Range(0, 40).Where(i => i is < 12 or > 18).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(40, 0, ("unusable_lead_off", 12, 18)));

        Assert.That(rows.Select(r => (r.BeginNs, r.EndNs)), Is.EqualTo(new[] { (13_000 * Ms, (15_000 * Ms) - 1) }));
    }

    [Test]
    public void Judge_ShownInOneStretchOfTwo_IsNotMet()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("B", "gate_shut", "shown", "within_s = 2\n", "ecg"), 60, more: "withhold_s = [[15, 18], [40, 43]]");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 60).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(60));

        Assert.That(rows.Select(r => r.BeginNs), Is.EqualTo(new[] { 14_000 * Ms, 39_000 * Ms }));
        RequirementVerdict one = Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 40, 1, lateMs: 2000)]).Single();
        Assert.That(one.Sentence, Is.EqualTo("shown in 1 of 2 stretches; first missing by 17.000 s"));
        Assert.That(
            Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 15, 1), TestCases.Mark(MarkKind.GateShut, 40, 1)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
        Assert.That(
            Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 15, 1), TestCases.Mark(MarkKind.GateShut, 40, 1, channel: ChannelName.Infrared)]).Single().Outcome,
            Is.EqualTo(RequirementOutcome.NotMet), "of another channel");
    }

    [Test]
    public void Judge_NothingToHoldAgainst_IsNotJudged()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("W", "heart_rate_bpm", "withheld", channel: "ecg"), 20);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 20).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(20));

        Assert.That(rows, Is.Empty);
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, 3)]).Single().Outcome, Is.EqualTo(RequirementOutcome.NotJudged));
    }

    [Test]
    public void Of_DeviceClock_TurnsBodyTimeIntoDeviceTime()
    {
        // The rule of the acquisition: device time = declared delay + offset + (1 + ppm / 10⁶) body time.
        PlannedCase planned = TestCases.Case(TestCases.Requirement("E", "r_peak", "marks", "sensitivity_min = 1\n"), 60);
        var rows = TestCases.Acquisition(60, 5).Where(r => r.Item == "declared_delay_ns").ToList();
        rows.Add(new(ChannelName.Ecg, "clock_segment_ppm", 0, 60_000 * Ms, 1000, "ppm", ""));
        rows.Add(new(ChannelName.Ecg, "clock_offset_ns", 0, 60_000 * Ms, 40 * Ms, "ns", ""));
        AcceptanceRow one = AcceptanceWindows.Of(planned, [TestCases.Beat(30, 1)], rows).Single(r => r.Rule == AcceptanceRule.One);

        // 30 s + 30 ms of 1000 ppm + 5 + 40 ms.
        Assert.That((one.BeginNs + one.EndNs) / 2, Is.EqualTo(30_075 * Ms));
    }
}
