// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Edges of judging where a slip would let answers pass: what cannot be judged, the first second, the second mark, readings of an interval or a trend.</summary>
[TestFixture]
public sealed class JudgingEdgeTests
{
    private const long Ms = 1_000_000;

    // A deviation excuses what is missed. What cannot be judged is no miss: it stays a fault, the library's too.
    [Test]
    public void Judge_KnownDeviation_DoesNotExcuseWhatCannotBeJudged()
    {
        PlannedCase planned = TestCases.Case(
            TestCases.Requirement("L", "r_peak", "prompt", "latency_ms_max = 500\n"), 20, more: "[[case.deviation]]\nrequirement = \"L\"\nreason = \"late\"\n");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, [TestCases.Beat(10, 1)], TestCases.Acquisition(20));
        var unsaid = CaseAnswers.Of(new[] { new AnswerRow("", TestCases.Mark(MarkKind.RPeak, 10), SaysWhenEmitted: false) });

        foreach (RequirementVerdict verdict in new[] { Judge.Case(planned, rows, unsaid, isOwnLibrary: true).Single(), Judge.Case(planned, [], unsaid, isOwnLibrary: true).Single() })
        {
            Assert.That((verdict.Outcome, verdict.IsFault, verdict.IsDeviationIdle), Is.EqualTo((RequirementOutcome.NotJudged, true, false)));
        }
    }

    // Of each whole second that the part holds one row; a second that it holds a piece of has none.
    [TestCase("12", "15", "12 13 14")]
    [TestCase("12.000000001", "15", "13 14")]
    [TestCase("12.3", "15.5", "13 14")]
    [TestCase("11.999999999", "14.999999999", "12 13")]
    public void Of_Share_AsksForWholeSeconds(string from, string until, string expected)
    {
        PlannedCase planned = TestCases.Case(
            TestCases.Requirement("H", "heart_rate_bpm", "readings", $"error_max = 5\nshare_min = 1\nstands_s = 1\nfrom_s = {from}\nuntil_s = {until}\n", "ecg"), 30);
        AcceptanceRow[] seconds = [.. AcceptanceWindows.Of(planned, Enumerable.Range(0, 30).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(30)).Where(r => r.Rule == AcceptanceRule.Some)];

        Assert.That(string.Join(' ', seconds.Select(r => r.BeginNs / (1000 * Ms))), Is.EqualTo(expected));
        Assert.That(seconds.Select(r => r.EndNs - r.BeginNs + 1), Is.All.EqualTo(1000 * Ms));
    }

    // Rows of another rule, as a set of somebody else may hold them: of readings they ask nothing, and nothing asked is not met.
    [Test]
    public void Judge_ReadingsWithRowsOfAnotherRule_AreNotJudged()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\n", "ecg"), 20);
        AcceptanceRow row = new("H", ChannelName.Ecg, MarkKind.HeartRateBpm, AcceptanceRule.By, 9000 * Ms, 10_000 * Ms);

        RequirementVerdict verdict = Judge.Case(planned, [row], [TestCases.Mark(MarkKind.HeartRateBpm, 9.5, 60)]).Single();
        Assert.That((verdict.Outcome, verdict.Sentence), Is.EqualTo((RequirementOutcome.NotJudged, "no reading is scored in the case")));
        Assert.That(Judge.Case(planned, [row with { Rule = AcceptanceRule.Within, Low = 55, High = 65 }], [TestCases.Mark(MarkKind.HeartRateBpm, 9.5, 60)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
    }

    // The reason that is asked for, or one told in time, may come after another: one right mark is enough, wherever it stands.
    [TestCase(3, 200, 2, 200, RequirementOutcome.Met)]
    [TestCase(2, 200, 3, 200, RequirementOutcome.Met)]
    [TestCase(2, 3000, 2, 200, RequirementOutcome.Met)]
    [TestCase(3, 200, 4, 200, RequirementOutcome.NotMet)]
    [TestCase(3, 200, 2, 3000, RequirementOutcome.NotMet)]
    public void Judge_Shown_OneRightMarkOfTwoIsEnough(double firstValue, double firstLateMs, double secondValue, double secondLateMs, RequirementOutcome expected)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("G", "gate_shut", "shown", "within_s = 2\nvalue = 2\n", "ecg"), 40);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 40).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(40, 0, ("unusable_lead_off", 12, 15)));

        Assert.That(
            Judge.Case(planned, rows, [TestCases.Mark(MarkKind.GateShut, 12.2, firstValue, firstLateMs), TestCases.Mark(MarkKind.GateShut, 12.6, secondValue, secondLateMs)]).Single().Outcome,
            Is.EqualTo(expected));
    }

    // Beats and pulses stop at 12 s and come again at 30 s: 5 s after the last one there is nothing to read. Spread of intervals is the ECG's, a trend of
    // the pressure and the spread of arrivals are the pulses'; the other signal goes on and makes no difference.
    [TestCase("sdnn_ms", "ecg", true)]
    [TestCase("rmssd_ms", "ecg", true)]
    [TestCase("rr_mean_ms", "ecg", true)]
    [TestCase("pressure_trend_mmhg", "infrared", false)]
    [TestCase("arrival_spread_ms", "infrared", false)]
    public void Of_Withheld_ReadingsOfWhatHasStopped(string kind, string channel, bool isOfEcg)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("W", kind, "withheld", "", channel), 40);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(planned, Truth(isOfEcg, !isOfEcg), TestCases.Acquisition(40))];

        Assert.That(rows.Select(r => (r.Rule, r.BeginNs, r.EndNs + 1)), Is.EqualTo(new[] { (AcceptanceRule.None, 17_000 * Ms, 30_000 * Ms) }));
        Assert.That(AcceptanceWindows.Of(planned, Truth(!isOfEcg, isOfEcg), TestCases.Acquisition(40)), Is.Empty, "the other signal has stopped");

        static IEnumerable<TruthEvent> Truth(bool hasEcgStopped, bool havePulsesStopped) => Enumerable.Range(0, 40).SelectMany(i => new[]
        {
            Event(ChannelName.Ecg, MarkKind.RPeak, i, 1, hasEcgStopped), Event(ChannelName.Ecg, MarkKind.RrMs, i, 1000, hasEcgStopped), Event(ChannelName.Infrared, MarkKind.PatMs, i, 250, havePulsesStopped),
        }.OfType<TruthEvent>());

        static TruthEvent? Event(ChannelName channel, MarkKind kind, int i, double value, bool hasStopped) =>
            hasStopped && i is > 12 and < 30 ? null : new TruthEvent(channel, kind, i * 1000 * Ms, value, i, BeatClass.Normal, TruthFlags.None);
    }
}
