// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Report;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Results;

/// <summary>Writes a <see cref="RunSummary"/> as one JSON document: snake_case keys with units, invariant numbers, null where undefined.</summary>
public static class SummaryJson
{
    /// <summary>Version of the document's layout.</summary>
    public const int SchemaVersion = 1;

    private static readonly JsonWriterOptions s_options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes the document, with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="summary">What to write.</param>
    public static void Write(Stream stream, RunSummary summary)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(summary);
        using (var json = new Utf8JsonWriter(stream, s_options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SchemaVersion);
            json.WriteString("title", summary.Title);
            json.WriteString(summary.GeneratorVersion is not null ? "scenario" : summary.Link is not null ? "recording" : "truth", summary.Input);
            ScoreJson.Number(json, "seed", summary.Seed);
            ScoreJson.Number(json, "generator_version", summary.GeneratorVersion);
            WriteIdentity(json, summary.Subject, summary.ReferencedFiles, summary.SensorTitle);
            json.WriteNumber("duration_s", summary.DurationS);
            EcgNoiseJson.WriteProperty(json, "ecg_noise", summary.EcgNoise);
            EcgNoiseJson.WriteProperty(json, "ecg_noise_worst", summary.EcgNoiseWorst);
            json.WriteString("detector", summary.Detector);
            json.WriteString("verdict", Word(summary.Verdict));
            json.WriteString("verdict_reason", summary.VerdictReason);
            WriteNotices(json, summary.Notices);
            Calibration(json, summary.Calibration, summary.NoPressure);
            ClosedLoop(json, summary.Loop);
            json.WriteNumber("scored_begin_s", summary.Report.ScoredBeginNs / 1e9);
            json.WriteNumber("scored_end_s", summary.Report.ScoredEndNs / 1e9);
            json.WriteNumber("match_window_ms", summary.Report.WindowNs / 1e6);
            json.WriteBoolean("is_exact", summary.Report.IsExact);
            json.WriteBoolean("requirements_met", summary.IsMet);
            json.WriteStartArray("scores");
            foreach (EventScore score in summary.Report.Scores)
            {
                ScoreJson.Write(json, score);
            }

            json.WriteEndArray();
            json.WriteStartArray("readings");
            foreach (ReadingScore reading in summary.Report.Readings)
            {
                ScoreJson.Write(json, reading);
            }

            json.WriteEndArray();
            ScoreJson.WriteRhythm(json, summary.Report.Rhythm);
            json.WriteStartArray("requirements");
            foreach (RequirementResult requirement in summary.Requirements)
            {
                Requirement(json, requirement);
            }

            json.WriteEndArray();
            summary.Exact?.WriteProperty(json);
            if (summary.Link is not null)
            {
                LinkJson.WriteProperty(json, summary.Link);
            }

            ScoreJson.WriteDefinitions(json, ScoreDefinitions.OfRecord);
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    /// <summary>Writes what belongs to a stream's identity beside scenario, seed and generator version.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="subject">The person that was drawn, or null.</param>
    /// <param name="files">Files that the scenario names.</param>
    /// <param name="sensorTitle">Title of the sensor; empty when there is none.</param>
    public static void WriteIdentity(Utf8JsonWriter json, DrawnSubject? subject, IReadOnlyList<ReferencedFile> files, string sensorTitle)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(sensorTitle);
        SubjectJson.WriteProperty(json, subject);
        if (sensorTitle.Length > 0)
        {
            json.WriteString("sensor", sensorTitle);
        }
        else
        {
            json.WriteNull("sensor");
        }

        json.WriteStartArray("referenced_files");
        foreach (ReferencedFile file in files)
        {
            json.WriteStartObject();
            json.WriteString("path", file.Path);
            json.WriteString("sha256", file.Sha256);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Text form of a verdict.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Word(Verdict verdict) => verdict switch
    {
        Verdict.Answered => "answered",
        Verdict.Silent => "silent",
        Verdict.Babbling => "babbling",
        Verdict.Hung => "hung",
        Verdict.Lying => "lying",
        Verdict.Late => "late",
        _ => "crashed",
    };

    private static void WriteNotices(Utf8JsonWriter json, IReadOnlyList<string> notices)
    {
        json.WriteStartArray("notices");
        foreach (string notice in notices)
        {
            json.WriteStringValue(notice);
        }

        json.WriteEndArray();
    }

    private static void Calibration(Utf8JsonWriter json, CalibrationFile? file, string? noPressure)
    {
        if (file is null)
        {
            json.WriteNull("calibration");
            return;
        }

        json.WriteStartObject("calibration");
        json.WriteString("path", file.Reference.Path);
        json.WriteString("sha256", file.Reference.Sha256);
        json.WriteString("title", file.Title);
        json.WriteString("no_pressure", noPressure);
        json.WriteEndObject();
    }

    private static void ClosedLoop(Utf8JsonWriter json, ControlLoop? loop)
    {
        if (loop is null)
        {
            json.WriteNull("closed_loop");
            return;
        }

        json.WriteStartObject("closed_loop");
        json.WriteNumber("latency_ms", loop.LatencyMs);
        json.WriteNumber("effective_changes", loop.EffectiveCount);
        json.WriteNumber("requests", loop.RequestCount);
        json.WriteNumber("requests_moved", loop.MovedCount);
        json.WriteNumber("requests_clamped", loop.ClampedCount);
        json.WriteNumber("requests_refused", loop.RefusedCount);
        json.WriteNumber("requests_without_room", loop.OverflowCount);
        json.WriteEndObject();
    }

    private static void Requirement(Utf8JsonWriter json, RequirementResult result)
    {
        json.WriteStartObject();
        json.WriteString("key", result.Definition.Key.Key);
        json.WriteString("subject", result.Subject);
        json.WriteNumber("limit", result.Limit);
        ScoreJson.Number(json, "actual", result.Actual);
        json.WriteBoolean("met", result.IsMet);
        json.WriteEndObject();
    }
}
