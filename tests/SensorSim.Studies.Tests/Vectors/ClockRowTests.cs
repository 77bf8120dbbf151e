// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Acceptance;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>
/// Every rule's rows stand in device time, by hand: the clock of this device is 2 s ahead and 1000 ppm fast, so body time t is 2 s + 1.001 t, while the plan's
/// times and the acquisition's stretches are device time already.
/// </summary>
[TestFixture]
public sealed class ClockRowTests
{
    private const long Ms = 1_000_000;
    private const string Close = "error_max = 5\nbeats_min = 2\nbeats_max = 2\n";

    [Test]
    public void Of_Prompt_CountsFromTheEventInDeviceTime()
    {
        AcceptanceRow row = Rows("r_peak", "prompt", "latency_ms_max = 500\n", [TestCases.Beat(20, 1)]).Single();

        Assert.That((row.BeginNs, row.EndNs, row.EmittedByNs), Is.EqualTo((21_870 * Ms, 22_170 * Ms, (long?)(22_520 * Ms))));
    }

    // Off from 20 to 24 s of the device. The beat of 17.9 s stands at 19.9179 and may be marked 150 ms later; that of 18.5 s, at 20.5185, not at all.
    [Test]
    public void Of_WithheldMarks_StandInDeviceTime()
    {
        AcceptanceRow[] rows = Rows("r_peak", "withheld", "", [.. Steady(17), TestCases.Beat(17.9, 18), TestCases.Beat(18.5, 19), .. Steady(38, from: 22)], ("unusable_lead_off", 20, 24));

        // The next beat, of 22 s, stands at 24.022 s and may be marked from 23.872 s on.
        Assert.That(rows.Select(r => (r.BeginNs, r.EndNs)), Is.EqualTo(new[] { ((20_067_900_000L + 1), 23_872 * Ms - 1) }));
    }

    // The last beat of 12 s: nothing to read from 17 s on, which is 19.017 s of the device, to the next beat, of 30 s and 32.03; the record ends at 42.04.
    [Test]
    public void Of_WithheldReadings_StandInDeviceTime()
    {
        AcceptanceRow[] paused = Rows("heart_rate_bpm", "withheld", "", [.. Steady(12), .. Steady(40, from: 30)]);
        AcceptanceRow[] ended = Rows("heart_rate_bpm", "withheld", "", Steady(12));

        Assert.That(paused.Select(r => (r.BeginNs, r.EndNs + 1)), Is.EqualTo(new[] { (19_017 * Ms, 32_030 * Ms) }));
        Assert.That(ended.Select(r => (r.BeginNs, r.EndNs + 1)), Is.EqualTo(new[] { (19_017 * Ms, 42_040 * Ms) }));
    }

    // Beats each second; off from 20 to 24 s of the device. The beat of 18 s stands at 20.018 s, its reading from 75 ms before on.
    [Test]
    public void Of_StandingReadings_StandInDeviceTime()
    {
        AcceptanceRow[] off = [.. Rows("heart_rate_bpm", "readings", Close, Steady(40), ("unusable_lead_off", 20, 24)).Where(r => r.BeginNs >= 19_999 * Ms && r.EndNs < 24_001 * Ms)];

        Assert.That(off.Select(r => r.BeatId), Is.EqualTo(new[] { 18L, 19, 20, 21, 22 }));
        Assert.That(off.Select(r => r.BeginNs), Is.EqualTo(new[] { 20_000 * Ms, 20_944 * Ms, 21_945 * Ms, 22_946 * Ms, 23_947 * Ms }).Within(1));
        Assert.That(off[^1].EndNs + 1, Is.EqualTo(24_000 * Ms).Within(1));
    }

    // From 12 to 14 s of the device: the beats of 10 and 11 s, at 12.01 and 13.011 s.
    [Test]
    public void Of_PartOfTheCase_IsDeviceTime()
    {
        const string Part = "from_s = 12\nuntil_s = 14\n";
        AcceptanceRow[] marks = Rows("r_peak", "marks", "sensitivity_min = 1\n" + Part, Steady(40));
        AcceptanceRow[] prompt = Rows("r_peak", "prompt", "latency_ms_max = 500\n" + Part, Steady(40));
        AcceptanceRow[] readings = Rows("heart_rate_bpm", "readings", Close + Part, Steady(40));
        AcceptanceRow[] standing = Rows("heart_rate_bpm", "readings", Close + Part, Steady(40), ("unusable_lead_off", 13, 20));
        AcceptanceRow[] withheld = Rows("r_peak", "withheld", Part, [], ("unusable_lead_off", 5, 20));
        AcceptanceRow[] shown = Rows("gate_shut", "shown", "within_s = 2\nfrom_s = 12\n", Steady(40));

        Assert.That(marks.Where(r => r.Rule == AcceptanceRule.One).Select(r => r.BeatId), Is.EqualTo(new[] { 10L, 11 }));
        Assert.That(prompt.Select(r => r.BeatId), Is.EqualTo(new[] { 10L, 11 }));
        Assert.That(Ends(readings), Is.EqualTo((12_000 * Ms, 14_000 * Ms)));
        Assert.That(Ends(standing), Is.EqualTo((12_000 * Ms, 14_000 * Ms)));
        Assert.That(Ends(withheld), Is.EqualTo((12_000 * Ms, 14_000 * Ms)));
        Assert.That(Ends(shown), Is.EqualTo((11_000 * Ms, 14_000 * Ms + 1)));
    }

    private static (long, long) Ends(AcceptanceRow[] rows) => (rows.Min(r => r.BeginNs), rows.Max(r => r.EndNs) + 1);

    private static TruthEvent[] Steady(int last, int from = 0) => [.. Enumerable.Range(from, last - from + 1).Select(i => TestCases.Beat(i, i))];

    private static AcceptanceRow[] Rows(string kind, string rule, string more, TruthEvent[] truth, params (string Item, double FromS, double ToS)[] stretches)
    {
        PlannedCase planned = TestCases.Case(TestCases.Requirement("R", kind, rule, more, "ecg"), 40);
        List<AcquisitionRow> rows = [.. TestCases.Acquisition(40, 0, stretches).Where(r => r.Item is not (AcquisitionItems.ClockSegmentPpm or AcquisitionItems.ClockOffsetNs))];
        rows.Add(new(ChannelName.Ecg, AcquisitionItems.ClockSegmentPpm, 0, 40_000 * Ms, 1000, "ppm", ""));
        rows.Add(new(ChannelName.Ecg, AcquisitionItems.ClockOffsetNs, 0, 40_000 * Ms, 2000 * Ms, "ns", ""));
        return [.. AcceptanceWindows.Of(planned, truth, rows)];
    }
}
