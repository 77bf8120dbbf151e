// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
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
            json.WriteString(summary.GeneratorVersion is null ? "truth" : "scenario", summary.Input);
            Number(json, "seed", summary.Seed);
            Number(json, "generator_version", summary.GeneratorVersion);
            WriteIdentity(json, summary.Subject, summary.ReferencedFiles, summary.SensorTitle);
            json.WriteNumber("duration_s", summary.DurationS);
            EcgNoiseJson.WriteProperty(json, "ecg_noise", summary.EcgNoise);
            EcgNoiseJson.WriteProperty(json, "ecg_noise_worst", summary.EcgNoiseWorst);
            json.WriteString("detector", summary.Detector);
            json.WriteString("verdict", Word(summary.Verdict));
            json.WriteString("verdict_reason", summary.VerdictReason);
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
                Score(json, score);
            }

            json.WriteEndArray();
            json.WriteStartArray("readings");
            foreach (ReadingScore reading in summary.Report.Readings)
            {
                Reading(json, reading);
            }

            json.WriteEndArray();
            json.WriteStartArray("requirements");
            foreach (RequirementResult requirement in summary.Requirements)
            {
                Requirement(json, requirement);
            }

            json.WriteEndArray();
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
        _ => "crashed",
    };

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

    private static void Score(Utf8JsonWriter json, EventScore score)
    {
        json.WriteStartObject();
        json.WriteString("channel", score.Channel.Text());
        json.WriteString("kind", score.Kind.Text());
        json.WriteNumber("reference_count", score.ReferenceCount);
        json.WriteNumber("matched", score.Matched);
        json.WriteNumber("missed", score.Missed);
        json.WriteNumber("extra", score.Extra);
        Number(json, "sensitivity", score.Sensitivity);
        Number(json, "sensitivity_low", score.SensitivityLow);
        Number(json, "sensitivity_high", score.SensitivityHigh);
        Number(json, "positive_predictivity", score.PositivePredictivity);
        Number(json, "positive_predictivity_low", score.PositivePredictivityLow);
        Number(json, "positive_predictivity_high", score.PositivePredictivityHigh);
        Number(json, "f1", score.F1);
        json.WriteNumber("timed_count", score.TimedCount);
        Number(json, "timing_bias_ms", score.TimingBiasMs);
        Number(json, "timing_sd_ms", score.TimingSdMs);
        Number(json, "timing_p95_ms", score.TimingP95Ms);
        json.WriteNumber("declared_delay_ms", score.DeclaredDelayMs);
        json.WriteNumber("clock_offset_ms", score.ClockOffsetMs);
        json.WriteNumber("clock_ppm", score.ClockPpm);
        json.WriteNumber("unscored_reference_count", score.OutsideTruth);
        json.WriteNumber("unusable_reference_count", score.UnusableTruth);
        json.WriteNumber("unusable_detection_count", score.UnusableDetections);
        json.WriteNumber("optional_matched", score.OptionalMatched);
        json.WriteNumber("optional_unmatched", score.OptionalUnmatched);
        json.WriteEndObject();
    }

    private static void Reading(Utf8JsonWriter json, ReadingScore reading)
    {
        json.WriteStartObject();
        json.WriteString("channel", reading.Channel.Text());
        json.WriteString("kind", reading.Kind.Text());
        json.WriteString("unit", reading.Unit);
        json.WriteNumber("count", reading.Count);
        Number(json, "bias", reading.Bias);
        Number(json, "sd", reading.Sd);
        Number(json, "rms", reading.Rms);
        Number(json, "p95_abs", reading.P95Abs);
        json.WriteNumber("wrong", reading.Wrong);
        json.WriteNumber("in_unusable_count", reading.InUnusableCount);
        Number(json, "first_reading_s", reading.FirstReadingS);
        Number(json, "latency_mean_ms", reading.LatencyMeanMs);
        json.WriteNumber("usable_s", reading.UsableS);
        json.WriteNumber("available_s", reading.AvailableS);
        Number(json, "available_share", reading.AvailableShare);
        Number(json, "wrong_per_day", reading.WrongPerDay);
        json.WriteEndObject();
    }

    private static void Requirement(Utf8JsonWriter json, RequirementResult result)
    {
        json.WriteStartObject();
        json.WriteString("key", result.Definition.Key.Key);
        json.WriteString("subject", result.Subject);
        json.WriteNumber("limit", result.Limit);
        Number(json, "actual", result.Actual);
        json.WriteBoolean("met", result.IsMet);
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
