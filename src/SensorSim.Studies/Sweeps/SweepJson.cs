// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using static SensorSim.Studies.Sweeps.JsonParts;

namespace SensorSim.Studies.Sweeps;

/// <summary>Writes what a study came to as one JSON document: snake_case keys with units, invariant numbers, null where undefined.</summary>
/// <remarks>No path, wall time or host name is in it: the same study gives the same bytes anywhere.</remarks>
public static class SweepJson
{
    /// <summary>Version of the document's layout.</summary>
    public const int SchemaVersion = 1;

    private static readonly JsonWriterOptions s_options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the document, with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="results">What to write.</param>
    public static void Write(Stream stream, SweepResults results)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(results);
        StudyPlan plan = results.Plan;
        using (var json = new Utf8JsonWriter(stream, s_options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SchemaVersion);
            json.WriteString("title", plan.Title);
            json.WriteString("identity", results.Identity.OfAll);
            json.WriteString("identity_of_runs", results.Identity.OfRuns);
            json.WriteString("identity_of_streams", results.Identity.OfStreams);
            json.WriteString("program_version", StudyIdentity.ProgramVersion);
            json.WriteNumber("generator_version", Scenario.GeneratorVersion);
            json.WriteString("scenario", plan.Scenario.Title);
            Array(json, "referenced_files", plan.Scenario.ReferencedFiles, WriteFile);
            json.WriteNumber("duration_s", plan.Scenario.DurationS);
            json.WriteNumber("run_count", plan.RunCount);
            json.WriteNumber("made_run_count", results.Rows.Rows.Count);
            json.WriteNumber("point_count", plan.Points.Count);
            Array(json, "seeds", plan.Seeds, (j, seed) => j.WriteNumberValue(seed));
            Array(json, "subject_seeds", plan.SubjectSeeds, (j, seed) => j.WriteNumberValue(seed));
            Array(json, "varied", plan.Factors, WriteFactor);
            Array(json, "points", plan.Points, WritePoint);
            Array(json, "detectors", plan.Detectors.Select((choice, i) => (choice, i)), (j, d) => WriteDetector(j, results, d.choice, d.i));
            WriteTuning(json, results);
            Array(json, "notices", results.Notices, (j, sentence) => j.WriteStringValue(sentence));
            json.WriteBoolean("passed", results.IsMet);
            json.WriteBoolean("requirements_met", results.AreRequirementsMet);
            json.WriteBoolean("looks_for_failure_points", results.LooksForFailurePoints);
            json.WriteNumber("unanswered_run_count", results.UnansweredCount);
            Array(json, "required", plan.Requirements, (j, r) => WriteRequired(j, r.Definition, r.Limit));
            WriteSettings(json, plan.FailurePoint);
            Array(json, "requirements_without_rows", results.WithoutRows, (j, r) => j.WriteStringValue(r.Key.Key));
            Array(json, "requirements", results.Figures, (j, f) => WriteFigure(j, plan, f));
            Array(json, "failure_points", results.FailurePoints, (j, p) => WriteFailurePoint(j, plan, p));
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    /// <summary>Reads from a document whether the study is fine, see <see cref="SweepResults.IsMet"/>.</summary>
    /// <param name="document">The document; one that <see cref="Write"/> made.</param>
    public static bool IsMet(ReadOnlyMemory<byte> document)
    {
        using JsonDocument read = JsonDocument.Parse(document);
        return read.RootElement.GetProperty("passed").GetBoolean();
    }

    private static void WriteFile(Utf8JsonWriter json, ReferencedFile file)
    {
        json.WriteStartObject();
        json.WriteString("file", Path.GetFileName(file.Path));
        json.WriteString("sha256", file.Sha256);
        json.WriteEndObject();
    }

    private static void WriteFactor(Utf8JsonWriter json, Factor factor)
    {
        json.WriteStartObject();
        json.WriteString("key", factor.Key.Name);
        json.WriteString("unit", factor.Key.Unit);
        json.WriteString("spacing", factor.IsInRatios ? "ratio" : "even");
        Array(json, "levels", factor.Levels, WriteValue);
        json.WriteEndObject();
    }

    private static void WritePoint(Utf8JsonWriter json, StudyPoint point)
    {
        json.WriteStartArray();
        foreach (object value in point.Values)
        {
            WriteValue(json, value);
        }

        json.WriteEndArray();
    }

    private static void WriteDetector(Utf8JsonWriter json, SweepResults results, DetectorChoice choice, int index)
    {
        RunRow[] own = [.. results.Rows.Rows.Where(r => results.Plan.KeyOf(r.Run).Detector == index)];
        json.WriteStartObject();
        json.WriteString("label", choice.Label);
        json.WriteString("identity", results.Identity.Detectors[index]);
        json.WriteStartObject("constants");
        foreach ((string name, double value) in choice.Constants.OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            json.WriteNumber(name, value);
        }

        json.WriteEndObject();
        json.WriteString("control", choice.Control);
        json.WriteBoolean("closed_loop", choice.IsLoopClosed);
        foreach (Verdict verdict in Enum.GetValues<Verdict>())
        {
            json.WriteNumber($"{SummaryJson.Word(verdict)}_run_count", own.Count(r => r.Verdict == verdict));
        }

        json.WriteString("first_reason", own.FirstOrDefault(r => r.Verdict != Verdict.Answered)?.VerdictReason);
        json.WriteEndObject();
    }

    private static void WriteTuning(Utf8JsonWriter json, SweepResults results)
    {
        if (results.Tuned is not var (settings, chosen))
        {
            json.WriteNull("tuning");
            return;
        }

        json.WriteStartObject("tuning");
        Array(json, "seeds", settings.Seeds, (j, seed) => j.WriteNumberValue(seed));
        json.WriteString("requirement", results.Plan.Requirements[0].Definition.Key.Key);
        Array(json, "chosen", chosen, (j, c) =>
        {
            j.WriteStartObject();
            j.WriteString("detector", results.Plan.Detectors[c.Detector].Label);
            foreach ((string name, double value) in c.Constants)
            {
                j.WriteNumber(name, value);
            }

            Number(j, "figure", c.Figure);
            j.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WriteFigure(Utf8JsonWriter json, StudyPlan plan, PointFigure figure)
    {
        json.WriteStartObject();
        WriteRequirement(json, figure.Requirement);
        json.WriteString("detector", plan.Detectors[figure.Detector].Label);
        json.WriteNumber("point", figure.Point);
        WriteValues(json, "values", plan.Factors.Zip(plan.Points[figure.Point].Values));
        Number(json, "figure", figure.Pool.Figure);
        json.WriteBoolean("met", figure.IsMet);
        json.WriteNumber("run_count", figure.Pool.RunCount);
        json.WriteNumber("event_count", figure.EventCount);
        if (figure.Requirement.Definition.Figure is RequiredFigure.Sensitivity or RequiredFigure.PositivePredictivity)
        {
            json.WriteNumber("matched", figure.Pool.Counts.Matched);
            json.WriteNumber("missed", figure.Pool.Counts.Missed);
            json.WriteNumber("extra", figure.Pool.Counts.Extra);
        }

        json.WriteEndObject();
    }

    private static void WriteRequired(Utf8JsonWriter json, RequirementDefinition definition, double limit)
    {
        json.WriteStartObject();
        json.WriteString("requirement", definition.Key.Key);
        json.WriteNumber("limit", limit);
        json.WriteEndObject();
    }

    // What another reader of the rows needs to find the same failure points.
    private static void WriteSettings(Utf8JsonWriter json, FailurePointSettings settings)
    {
        json.WriteStartObject("failure_point_definition");
        json.WriteString("of", settings.PassFraction is null ? "pooled" : "runs");
        Number(json, "pass_fraction", settings.PassFraction);
        json.WriteString("curve", settings.Shape == CurveShape.Probit ? "probit" : "logistic");
        json.WriteNumber("resamples", settings.Resamples);
        json.WriteBoolean("adaptive", settings.IsAdaptive);
        json.WriteEndObject();
    }

    private static void WriteFailurePoint(Utf8JsonWriter json, StudyPlan plan, FailurePoint point)
    {
        json.WriteStartObject();
        WriteRequirement(json, point.Requirement);
        json.WriteString("detector", plan.Detectors[point.Detector].Label);
        json.WriteString("key", point.Factor.Key.Name);
        json.WriteString("unit", point.Factor.Key.Unit);
        WriteValues(json, "held", point.Held);
        json.WriteString("state", FailurePointTable.Word(point.State));
        Number(json, "level", point.Level);
        Number(json, "level_low", point.Interval?.Low);
        Number(json, "level_high", point.Interval?.High);
        json.WriteString("definition", point.Definition);
        Array(json, "warnings", point.Warnings, (j, warning) => j.WriteStringValue(warning));
        Array(json, "levels", point.Levels, WriteLevel);
        json.WriteEndObject();
    }

    private static void WriteLevel(Utf8JsonWriter json, LevelFigure level)
    {
        json.WriteStartObject();
        json.WriteNumber("point", level.Point);
        json.WriteNumber("level", level.Level);
        Number(json, "figure", level.Figure);
        Number(json, "figure_low", level.Interval?.Low);
        Number(json, "figure_high", level.Interval?.High);
        json.WriteNumber("run_count", level.RunCount);
        json.WriteNumber("event_count", level.EventCount);
        json.WriteEndObject();
    }

    private static void WriteRequirement(Utf8JsonWriter json, RequirementOnRow requirement)
    {
        json.WriteString("requirement", requirement.Definition.Key.Key);
        json.WriteString("channel", requirement.Channel.Text());
        json.WriteString("kind", requirement.Definition.Kind.Text());
        json.WriteString("unit", requirement.Definition.Key.Unit);
        json.WriteNumber("limit", requirement.Limit);
    }

    private static void WriteValues(Utf8JsonWriter json, string name, IEnumerable<(Factor Factor, object Value)> values)
    {
        json.WriteStartObject(name);
        foreach ((Factor factor, object value) in values)
        {
            json.WritePropertyName(factor.Key.Name);
            WriteValue(json, value);
        }

        json.WriteEndObject();
    }

    private static void WriteValue(Utf8JsonWriter json, object value)
    {
        if (value is double number)
        {
            json.WriteNumberValue(number);
        }
        else
        {
            json.WriteStringValue((string)value);
        }
    }
}
