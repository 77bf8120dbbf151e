// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;
using SensorSim.Files.JUnit;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Sweeps;
using static SensorSim.Studies.Sweeps.JsonParts;

namespace SensorSim.Studies.Comparisons;

/// <summary>Writes a comparison as one JSON document: snake_case keys with units, invariant numbers, null where undefined or open.</summary>
public static class ComparisonJson
{
    /// <summary>Version of the document's layout.</summary>
    public const int SchemaVersion = 1;

    private static readonly JsonWriterOptions s_options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the document, with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="comparison">What to write.</param>
    /// <param name="gate">What was judged; null when nothing was.</param>
    public static void Write(Stream stream, Comparison comparison, Gate? gate)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(comparison);
        StudyPlan plan = comparison.Pair.Results.Plan;
        using (var json = new Utf8JsonWriter(stream, s_options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SchemaVersion);
            json.WriteString("title", plan.Title);
            WriteSide(json, "first", comparison.Pair.Sides[ComparedPair.First]);
            WriteSide(json, "second", comparison.Pair.Sides[ComparedPair.Second]);
            json.WriteNumber("run_count", comparison.Pair.Results.Rows.Count / 2);
            json.WriteNumber("no_longer_answered_run_count", comparison.NoLongerAnswered.Count);
            json.WriteNumber("newly_answered_run_count", comparison.NewlyAnswered.Count);
            Array(json, "notes", comparison.Pair.Notes, (j, n) => j.WriteStringValue(n));
            Array(json, "notices", comparison.Pair.Notices, (j, n) => j.WriteStringValue(n));
            Array(json, "definitions", ComparisonTexts.Definitions, (j, n) => j.WriteStringValue(n));
            WriteGate(json, comparison, gate);
            Array(json, "all_points", comparison.Overall, (j, d) => WriteDifference(j, plan, d));
            Array(json, "failure_points", comparison.FailurePoints, WriteFailure);
            Array(json, "points", comparison.AtPoints, (j, d) => WriteDifference(j, plan, d));
            Array(json, "runs", comparison.Runs, (j, r) => WriteRun(j, comparison, r));
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void WriteSide(Utf8JsonWriter json, string name, ComparedSide side)
    {
        json.WriteStartObject(name);
        json.WriteString("label", side.Label);
        json.WriteString("detector", side.Detector);
        json.WriteString("study_identity", side.StudyIdentity);
        json.WriteString("program_version", side.ProgramVersion);
        json.WriteEndObject();
    }

    private static void WriteGate(Utf8JsonWriter json, Comparison comparison, Gate? gate)
    {
        if (gate is null)
        {
            json.WriteNull("gate");
            return;
        }

        json.WriteStartObject("gate");
        json.WriteBoolean("got_worse", gate.Worse.Count > 0);
        json.WriteNumber("test_count", comparison.TestCount);
        json.WriteNumber("case_count", gate.Cases.Count);
        json.WriteNumber("skipped_case_count", gate.Cases.Count(c => c.Outcome == JUnitOutcome.Skipped));
        Array(json, "worse", gate.Worse, (j, w) => j.WriteStringValue(w));
        json.WriteEndObject();
    }

    private static void WriteDifference(Utf8JsonWriter json, StudyPlan plan, PairedDifference difference)
    {
        json.WriteStartObject();
        WriteFigure(json, difference.Figure);
        if (difference.Point is int point)
        {
            json.WriteNumber("point", point);
            json.WriteString("values", ComparisonTexts.Place(plan, point));
        }

        Number(json, "first", difference.First);
        Number(json, "second", difference.Second);
        Number(json, "difference", difference.Difference);
        WriteInterval(json, difference.Interval);
        Number(json, "swap_p", difference.SwapP);
        json.WriteString("verdict", difference.Verdict.Text());
        json.WriteNumber("run_count", difference.RunCount);
        json.WriteNumber("first_event_count", difference.FirstEventCount);
        json.WriteNumber("second_event_count", difference.SecondEventCount);
        if (difference.Met is MetRuns met)
        {
            json.WriteNumber("met_by_both", met.Both);
            json.WriteNumber("met_by_first_only", met.OnlyFirst);
            json.WriteNumber("met_by_second_only", met.OnlySecond);
            json.WriteNumber("met_by_neither", met.Neither);
            Number(json, "mcnemar_exact_p", met.ExactP);
        }

        json.WriteEndObject();
    }

    private static void WriteFailure(Utf8JsonWriter json, FailureDifference difference)
    {
        json.WriteStartObject();
        WriteFigure(json, new ComparedFigure(difference.First.Requirement.Definition, difference.First.Requirement.Channel, difference.First.Requirement.Limit));
        json.WriteString("key", difference.First.Factor.Key.Name);
        json.WriteString("key_unit", difference.First.Factor.Key.Unit);
        json.WriteString("held", ComparisonTexts.Held(difference.First.Held));
        json.WriteString("first_state", FailurePointRow.Word(difference.First.State));
        json.WriteString("second_state", FailurePointRow.Word(difference.Second.State));
        Number(json, "first", difference.First.Level);
        Number(json, "second", difference.Second.Level);
        Number(json, "difference", difference.Difference);
        WriteInterval(json, difference.Interval);
        json.WriteString("verdict", difference.Verdict.Text());
        json.WriteString("first_definition", difference.First.Definition);
        json.WriteString("second_definition", difference.Second.Definition);
        json.WriteEndObject();
    }

    private static void WriteRun(Utf8JsonWriter json, Comparison comparison, DifferingRun run)
    {
        json.WriteStartObject();
        WriteFigure(json, run.Figure);
        json.WriteNumber("first_run", comparison.Pair.Sides[ComparedPair.First].OwnRun(run.Run));
        json.WriteNumber("second_run", comparison.Pair.Sides[ComparedPair.Second].OwnRun(run.Run));
        json.WriteNumber("point", run.Point);
        json.WriteString("values", ComparisonTexts.Place(comparison.Pair.Results.Plan, run.Point));
        json.WriteNumber("seed", run.Seed);
        if (run.SubjectSeed is ulong subject)
        {
            json.WriteNumber("subject_seed", subject);
        }

        Number(json, "first", run.First);
        Number(json, "second", run.Second);
        Number(json, "difference", run.Difference);
        json.WriteEndObject();
    }

    private static void WriteFigure(Utf8JsonWriter json, ComparedFigure figure)
    {
        json.WriteString("figure", figure.Name);
        json.WriteString("channel", figure.Channel.Text());
        json.WriteString("unit", figure.Unit);
        Number(json, "limit", figure.Limit);
    }

    private static void WriteInterval(Utf8JsonWriter json, Interval? interval)
    {
        Number(json, "difference_low", interval?.Low);
        Number(json, "difference_high", interval?.High);
    }
}
