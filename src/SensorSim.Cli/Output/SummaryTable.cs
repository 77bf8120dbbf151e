// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Acquisition;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Output;

/// <summary>Prints a <see cref="RunSummary"/> as short tables.</summary>
internal static class SummaryTable
{
    /// <summary>Prints the tables.</summary>
    /// <param name="terminal">Where to.</param>
    /// <param name="summary">What.</param>
    public static void Print(Terminal terminal, RunSummary summary)
    {
        TextWriter text = terminal.Out;
        text.WriteLine(summary.Title);
        string seed = summary.Seed is ulong s ? Invariant($", seed {s}, generator version {summary.GeneratorVersion}") : "";
        text.WriteLine(Invariant($"{summary.Input}: {summary.DurationS:0.###} s{seed}"));
        if (summary.ActivityCount + summary.ChangeCount > 0)
        {
            text.WriteLine(Invariant($"time line: activities {summary.ActivityCount}, changes {summary.ChangeCount}"));
        }

        if (summary.SettingCount > 0)
        {
            text.WriteLine(Invariant($"schedule of settings: changes {summary.SettingCount}"));
        }

        if (summary.SensorTitle.Length > 0)
        {
            text.WriteLine($"sensor: {summary.SensorTitle}");
        }

        SubjectText.Print(text, summary.Subject);
        if (summary.EcgNoise is EcgNoiseFigures noise)
        {
            text.WriteLine($"ECG noise at the start, as its knobs set it: {Snr(noise)}");
        }

        if (summary.EcgNoiseWorst is EcgNoiseFigures worst)
        {
            text.WriteLine(Invariant($"ECG noise at its worst, first at {worst.AtSeconds:0.###} s, as set: {Snr(worst)}"));
        }

        if (summary.Detector.Length > 0)
        {
            text.WriteLine($"detector: {summary.Detector}");
        }

        if (summary.Calibration is CalibrationFile calibration)
        {
            text.WriteLine($"calibration: {(calibration.Title.Length > 0 ? calibration.Title : calibration.Reference.Path)}");
        }

        if (summary.Loop is ControlLoop loop)
        {
            text.WriteLine(Invariant(
                $"closed loop: {loop.RequestCount} requests, {loop.EffectiveCount} changes took effect, {loop.LatencyMs} ms after the request; {loop.MovedCount} moved, {loop.ClampedCount} clamped, {loop.RefusedCount} refused, {loop.OverflowCount} without room"));
        }

        double begin = summary.Report.ScoredBeginNs * 1e-9;
        double end = summary.Report.ScoredEndNs * 1e-9;
        text.WriteLine(Invariant($"scored from {begin:0.###} s to {end:0.###} s, match window ±{summary.Report.WindowNs * 1e-6:0.#} ms, declared delays taken off"));
        if (summary.Report.ScoredEndNs <= summary.Report.ScoredBeginNs)
        {
            text.WriteLine("nothing is scored: the record ends before the lead-in does; make it longer than 10 s");
        }

        PrintEvents(text, summary.Report.Scores);
        Lines(text, DefinitionText.Of(ScoreDefinitions.Events));
        Lines(text, DefinitionText.MoreOf(summary.Report));
        long optional = summary.Report.Scores.Sum(s => s.OptionalMatched + s.OptionalUnmatched);
        if (optional > 0)
        {
            text.WriteLine(Invariant($"{optional} more true events are optional (not of high confidence): found or not, they count neither way"));
        }

        Lines(text, ChainText.Of(summary.Report));
        if (summary.Report.Readings.Count > 0)
        {
            PrintReadings(text, summary.Report.Readings);
            foreach (ReadingScore r in summary.Report.Readings.Where(r => r.UnjudgedCount > 0))
            {
                text.WriteLine(Invariant($"{r.UnjudgedCount} more {r.Kind.Text()} in {r.Channel.Text()} cannot be judged by this truth: they count neither as right nor as wrong"));
            }

            Lines(text, DefinitionText.Of([.. ScoreDefinitions.Readings, .. ScoreDefinitions.MoreOfEvents.Where(d => d.Key == "latency_median_ms")]));
        }

        if (summary.NoPressure is string why)
        {
            text.WriteLine($"no pressure was given: {why}");
        }

        if (summary.Requirements.Count > 0)
        {
            PrintRequirements(text, summary.Requirements);
        }

        if (summary.Verdict != Verdict.Answered)
        {
            text.WriteLine($"{SummaryJson.Word(summary.Verdict)}: {summary.VerdictReason}");
        }

        if (!summary.Report.IsExact)
        {
            text.WriteLine("some events were judged early for lack of room, or came too late: the figures are approximate");
        }

        if (summary.Requirements.Count > 0 || summary.Verdict != Verdict.Answered)
        {
            text.WriteLine(summary.IsMet ? "requirements met" : "requirements NOT met");
        }
    }

    private static void Lines(TextWriter text, IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            text.WriteLine(line);
        }
    }

    private static void PrintEvents(TextWriter text, IReadOnlyList<EventScore> scores) => PlainTables.PrintApart(
        text,
        ["channel", "event", "true>", "missed>", "extra>", "Se [%]>", "95 % interval>", "+P [%]>", "95 % interval>", "bias [ms]>", "SD [ms]>", "p95 [ms]>"],
        scores.Select(s => new[]
        {
            s.Channel.Text(),
            s.Kind.Text(),
            Whole(s.ReferenceCount),
            Whole(s.Missed),
            Whole(s.Extra),
            Percent(s.Sensitivity),
            Interval(s.SensitivityLow, s.SensitivityHigh),
            Percent(s.PositivePredictivity),
            Interval(s.PositivePredictivityLow, s.PositivePredictivityHigh),
            PlainTables.Fixed(s.TimingBiasMs, "0.00"),
            PlainTables.Fixed(s.TimingSdMs, "0.00"),
            PlainTables.Fixed(s.TimingP95Ms, "0.0"),
        }));

    private static void PrintReadings(TextWriter text, IReadOnlyList<ReadingScore> readings) => PlainTables.PrintApart(
        text,
        ["channel", "reading", "count>", "bias>", "SD>", "RMS>", "p95>", "unit", "wrong>", "first [s]>", "with [%]>", "late [ms]>"],
        readings.Select(r => new[]
        {
            r.Channel.Text(),
            r.Kind.Text(),
            Whole(r.Count),
            PlainTables.Fixed(r.Bias, "0.00"),
            PlainTables.Fixed(r.Sd, "0.00"),
            PlainTables.Fixed(r.Rms, "0.00"),
            PlainTables.Fixed(r.P95Abs, "0.0"),
            r.Unit,
            Whole(r.Wrong),
            PlainTables.Fixed(r.FirstReadingS, "0.0"),
            PlainTables.Fixed(r.AvailableShare * 100, "0.0"),
            PlainTables.Fixed(r.LatencyMedianMs, "0"),
        }));

    private static void PrintRequirements(TextWriter text, IReadOnlyList<RequirementResult> requirements) => PlainTables.PrintApart(
        text,
        ["requirement", "of", "limit>", "reached>", "met>"],
        requirements.Select(r => new[]
        {
            r.Definition.Key.Key, r.Subject, PlainTables.Fixed(r.Limit, "0.#####"), r.ToldActual, r.IsMet ? "yes" : "NO",
        }));

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Percent(double? share) => PlainTables.Fixed(share * 100, "0.00");

    private static string Interval(double? low, double? high) =>
        low is null ? "-" : $"{Percent(low)} to {Percent(high)}";

    private static string Snr(EcgNoiseFigures noise) =>
        $"SNR {PlainTables.Fixed(noise.All.SnrDb, "0.0")} dB, from 8 to 20 Hz {PlainTables.Fixed(noise.All.BandSnrDb, "0.0")} dB";

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
