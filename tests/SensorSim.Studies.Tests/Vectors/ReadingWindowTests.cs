// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Limits of readings, computed by hand from the definitions of the project: a rate is 60 n / (last − first), a saturation the mean of its beats.</summary>
[TestFixture]
public sealed class ReadingWindowTests
{
    private const long Ms = 1_000_000;

    // Beats each second up to 12 s, then each half second: 60 and 120 per minute. With two to three intervals a reading at 13 s (latest beat 13.0, windows may end
    // at 13.0, 12.5, 12.0) may be 120 (12 to 13), 3 / 2 s = 90 (11 to 13), 90 (11 to 12.5 or two over 1.5 s: 80), 72 (three over 2.5 s), 60 (ending at 12).
    [Test]
    public void Of_Rate_SpansTheSensibleWindows()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nerror_percent_max = 10\nbeats_min = 2\nbeats_max = 3\n"), 20);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(planned, Beats(), TestCases.Acquisition(20))];
        AcceptanceRow at13 = rows.Single(r => r.BeginNs <= 13_100 * Ms && r.EndNs >= 13_100 * Ms);

        // 10 % of 60 is 6, of 120 it is 12: more than 5 both.
        Assert.That((at13.Low, at13.High), Is.EqualTo((54.0, 132.0)));

        // A reading may stand 75 ms before its beat: half the match window.
        Assert.That((at13.BeginNs, at13.EndNs), Is.EqualTo((12_925 * Ms, (13_425 * Ms) - 1)));
        Assert.That(rows.All(r => r.Rule == AcceptanceRule.Within));

        // Three beats later no window reaches back to the slow ones; 120 ± 12.
        AcceptanceRow later = rows.Single(r => r.BeginNs <= 15_100 * Ms && r.EndNs >= 15_100 * Ms);
        Assert.That((later.Low, later.High), Is.EqualTo((108.0, 132.0)));
    }

    [Test]
    public void Of_StandstillAndLeadIn_AsksNothing()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\n"), 40);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(planned, Enumerable.Range(0, 13).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(40))];

        // From the lead-in of 8 s to 5 s after the last beat at 12 s.
        Assert.That(rows.Min(r => r.BeginNs), Is.EqualTo(8000 * Ms));
        Assert.That(rows.Max(r => r.EndNs), Is.EqualTo((17_000 * Ms) - 1));
        Assert.That(rows.Select(r => (r.Low, r.High)).Distinct(), Is.EqualTo(new[] { (55.0, 65.0) }));
    }

    [Test]
    public void Of_OptionalBeat_AsksNothingWhileAnyWindowHoldsIt()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nbeats_min = 2\nbeats_max = 3\n"), 30);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(
            planned, Enumerable.Range(0, 30).Select(i => TestCases.Beat(i, i, i == 15 ? TruthFlags.Optional : TruthFlags.None)), TestCases.Acquisition(30))];

        // Windows reach from the latest beat back by 3 intervals and end up to 2 beats before it: beats 15 to 20 see beat 15.
        Assert.That(rows.Select(r => r.BeatId).Where(b => b is >= 13 and <= 22), Is.EqualTo(new[] { 13L, 14, 21, 22 }));
    }

    // Means over one to two beats, ending at the latest or one or two before: 97, 96 and 95 of the last three and their neighbours' means.
    [Test]
    public void Of_Saturation_IsTheMeanOfItsBeats()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("S", "spo2_percent", "readings", "error_max = 2\nbeats_max = 2\n", "infrared"), 20);
        IEnumerable<TruthEvent> truth = Enumerable.Range(0, 19).Select(i => new TruthEvent(
            ChannelName.Infrared, MarkKind.Spo2Percent, i * 1000 * Ms, 100 - i, i, BeatClass.Normal, TruthFlags.None));
        AcceptanceRow row = AcceptanceWindows.Of(planned, truth, TestCases.Acquisition(20)).Single(r => r.BeatId == 12);

        // Latest beat 12: value 88; the oldest mean is that of beats 9 and 10: 90.5. Less and more 2.
        Assert.That((row.Low, row.High), Is.EqualTo((86.0, 92.5)));
    }

    [Test]
    public void Judge_Readings_ValueShareAndFirst()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nshare_min = 0.9\nfirst_within_s = 6\n"), 30);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 30).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(30));

        Assert.That(Of(5, 1, 60).Outcome, Is.EqualTo(RequirementOutcome.Met));
        Assert.That(Of(5, 1, 65.001).Sentence, Does.StartWith("0 of 21 readings right; first wrong at 8.000 s: 65.001, right is 55 to 65 bpm"));
        Assert.That(Of(5, 1, double.NaN).Sentence, Does.Contain("first wrong at 8.000 s: no value"));

        // Emitted 200 ms after its time: the one of 6 s comes too late.
        Assert.That(Of(6, 1, 60).Sentence, Does.Contain("first reading at 6.200 s, within 6 s is required"));
        Assert.That(Of(6, 1, 60).Outcome, Is.EqualTo(RequirementOutcome.NotMet));

        // Every 10 s: seconds 8 to 9 (after 5), ..., 5 of 10 are covered each time.
        RequirementVerdict seldom = Of(5, 10, 60);
        Assert.That(seldom.Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(seldom.Figures.Single(f => f.Name == "available_share").Value, Is.EqualTo(11 / 21.0).Within(1e-12));

        RequirementVerdict Of(double first, double step, double value) => Judge.Case(
            planned, rows, Enumerable.Range(0, 100).Select(i => first + (i * step)).Where(t => t < 29).Select(t => TestCases.Mark(MarkKind.HeartRateBpm, t, value))).Single();
    }

    [Test]
    public void Of_LimitsByDesign_StandOverUsableTime()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("R", "respiration_rate_bpm", "readings", "low = 11\nhigh = 17\nfrom_s = 12\n"), 20);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(planned, [], TestCases.Acquisition(20, 0, ("unusable_saturated", 15, 16)))];

        // Made of whichever signals there are, so the ECG alone does not stop it.
        Assert.That(rows.Select(r => (r.BeginNs, r.EndNs + 1, r.Low, r.High)), Is.EqualTo(new[] { (12_000 * Ms, 19_000 * Ms, 11.0, 17.0) }));
    }

    // A signal is unusable from 12 to 20 s while the heart goes from 60 to 120 per minute at 15 s: what stood before may still be shown, anything else not.
    [Test]
    public void Of_UnusableStretch_AllowsWhatWasRightSinceItBegan()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nbeats_min = 2\nbeats_max = 2\nshare_min = 0.5\n", "ecg"), 40);
        AcceptanceRow[] rows = [.. AcceptanceWindows.Of(
            planned,
            Enumerable.Range(0, 16).Select(i => TestCases.Beat(i, i)).Concat(Enumerable.Range(1, 48).Select(i => TestCases.Beat(15 + (i * 0.5), 15 + i))),
            TestCases.Acquisition(40, 0, ("unusable_lead_off", 12, 20)))];

        Assert.That(Limits(13_000), Is.EqualTo((55.0, 65.0)));

        // Long after the change 60 is still allowed there, and 120; after the stretch only 120.
        Assert.That(Limits(19_000), Is.EqualTo((55.0, 125.0)));
        Assert.That(Limits(20_500), Is.EqualTo((115.0, 125.0)));

        // Nothing is asked there: no second of it needs a reading.
        Assert.That(rows.Where(r => r.Rule == AcceptanceRule.Some && r.EndNs > 12_000 * Ms && r.EndNs < 20_000 * Ms), Is.Empty);
        Assert.That(Judge.Case(planned, rows, [.. Right(), TestCases.Mark(MarkKind.HeartRateBpm, 14, 250)]).Single().Sentence, Does.Contain("first wrong at 14.000 s: 250"));
        Assert.That(Judge.Case(planned, rows, Right()).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));

        (double, double) Limits(long atMs) => rows.Where(r => r.Rule == AcceptanceRule.Within && r.BeginNs <= atMs * Ms && r.EndNs >= atMs * Ms).Select(r => (r.Low, r.High)).Single();

        static IEnumerable<SensorSim.Files.Rows.DetectionRow> Right() =>
            Enumerable.Range(5, 33).Select(i => TestCases.Mark(MarkKind.HeartRateBpm, i, i < 16 ? 60 : 120)).Where(m => m.TimeNs < 16_000 * Ms || m.TimeNs >= 17_000 * Ms);
    }

    // The heart stands still from 9 to 17 s, and the plan withholds from 9.5 s on: up to then, and as long as a rate may stand, it is the last one, 60, or
    // none. That none stands longer is what the rule withheld asks. A stretch that is unusable says the same.
    [TestCase("withhold_s = [[9.5, 17]]", 0.0)]
    [TestCase("", 9.5)]
    public void Of_Standstill_AllowsTheLastRateAlone(string withheld, double offFromS)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nbeats_max = 4\n", "ecg"), 30, more: withheld);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned,
            Enumerable.Range(0, 30).Where(i => i is < 10 or >= 17).Select(i => TestCases.Beat(i, i)),
            offFromS > 0 ? TestCases.Acquisition(30, 0, ("unusable_lead_off", offFromS, 17)) : TestCases.Acquisition(30));

        Assert.That(rows.Where(r => r.BeginNs < 16_900 * Ms && r.EndNs >= 9500 * Ms).Select(r => (r.BeginNs, r.EndNs + 1, r.Low, r.High)), Is.EqualTo(new[] { (9500 * Ms, 16_925 * Ms, 55.0, 65.0) }));
        foreach (double at in new[] { 9.6, 12, 14.3, 16.9 })
        {
            Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, at, 250)]).Single().Sentence, Does.Contain("0 of 1 readings right; first wrong at"), $"at {at} s");
            Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, at, 60)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met), $"at {at} s");
        }
    }

    // A beat that may or may not count comes in the middle: what is right from then on is not known, so nothing is held against what stood before.
    [Test]
    public void Of_StandstillUpToAnOptionalBeat_EndsThere()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nbeats_max = 4\n", "ecg"), 30, more: "withhold_s = [[9.5, 20]]");
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(
            planned, Enumerable.Range(0, 13).Select(i => TestCases.Beat(i, i, i == 11 ? TruthFlags.Optional : TruthFlags.None)), TestCases.Acquisition(30));

        Assert.That(rows.Max(r => r.EndNs) + 1, Is.EqualTo(10_925 * Ms));
    }

    // 9999 in the lead-in, where no value is judged, and a reading without a value: neither is a reading that was given.
    [TestCase(9999.0)]
    [TestCase(double.NaN)]
    public void Judge_WrongReading_IsNotOneThatWasGiven(double value)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nshare_min = 0.1\nfirst_within_s = 8\n"), 14);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 14).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(14));
        RequirementVerdict wrong = Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, 7.5, value)]).Single();

        Assert.That(wrong.Outcome, Is.EqualTo(RequirementOutcome.NotMet));
        Assert.That(wrong.Sentence, Does.Contain("0 of 5 seconds with a reading").And.Contain("no reading within 8 s"));
        Assert.That(Judge.Case(planned, rows, [TestCases.Mark(MarkKind.HeartRateBpm, 7.5, 60)]).Single().Outcome, Is.EqualTo(RequirementOutcome.Met));
    }

    // At a share that is just reached the requirement is met, and so is a first reading at the last nanosecond.
    [Test]
    public void Judge_JustEnough_IsMet()
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("H", "heart_rate_bpm", "readings", "error_max = 5\nshare_min = 1\nfirst_within_s = 8\nstands_s = 1\n"), 11);
        IReadOnlyList<AcceptanceRow> rows = AcceptanceWindows.Of(planned, Enumerable.Range(0, 11).Select(i => TestCases.Beat(i, i)), TestCases.Acquisition(11));
        Assert.That(rows.Count(r => r.Rule == AcceptanceRule.Some), Is.EqualTo(2));

        Assert.That(Of(8, 9).Outcome, Is.EqualTo(RequirementOutcome.Met));
        Assert.That(Of(8).Sentence, Does.Contain("1 of 2 seconds with a reading, first without at 10.000 s"));
        Assert.That(Of(8.5, 9).Outcome, Is.EqualTo(RequirementOutcome.NotMet), "first too late");

        RequirementVerdict Of(params double[] at) => Judge.Case(planned, rows, at.Select(t => TestCases.Mark(MarkKind.HeartRateBpm, t, 60, lateMs: 0))).Single();
    }

    private static IEnumerable<TruthEvent> Beats() =>
        Enumerable.Range(0, 13).Select(i => (double)i).Concat(Enumerable.Range(1, 14).Select(i => 12 + (i * 0.5))).Select((t, i) => TestCases.Beat(t, i));
}
