// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Results;

/// <summary>Writes the rows of a <see cref="ScoreReport"/> and the definitions of their figures.</summary>
public static class ScoreJson
{
    /// <summary>Writes a row of events as an object.</summary>
    /// <param name="json">Inside an array.</param>
    /// <param name="score">The row.</param>
    public static void Write(Utf8JsonWriter json, EventScore score)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(score);
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
        Number(json, "latency_median_ms", score.LatencyMedianMs);
        Number(json, "latency_p95_ms", score.LatencyP95Ms);
        json.WriteNumber("interval_count", score.IntervalCount);
        Number(json, "interval_rms_ms", score.IntervalRmsMs);
        Number(json, "interval_rms_percent", score.IntervalRmsPercent);
        Number(json, "shutdown_s", score.ShutdownS);
        json.WriteNumber("missed_in_shutdown", score.MissedInShutdown);
        json.WriteNumber("silent_s", score.SilentS);
        Classes(json, score.Classes);
        json.WriteEndObject();
    }

    /// <summary>Writes a row of readings as an object.</summary>
    /// <param name="json">Inside an array.</param>
    /// <param name="reading">The row.</param>
    public static void Write(Utf8JsonWriter json, ReadingScore reading)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(reading);
        json.WriteStartObject();
        json.WriteString("channel", reading.Channel.Text());
        json.WriteString("kind", reading.Kind.Text());
        json.WriteString("unit", reading.Unit);
        json.WriteNumber("count", reading.Count);
        Number(json, "bias", reading.Bias);
        Number(json, "sd", reading.Sd);
        Number(json, "rms", reading.Rms);
        Number(json, "p95_abs", reading.P95Abs);
        Number(json, "mean_abs", reading.MeanAbs);
        Number(json, "mean_abs_percent", reading.MeanAbsPercent);
        Number(json, "within_share", reading.WithinShare);
        json.WriteNumber("wrong", reading.Wrong);
        Number(json, "wrong_share", reading.WrongShare);
        json.WriteNumber("in_unusable_count", reading.InUnusableCount);
        json.WriteNumber("unjudged_count", reading.UnjudgedCount);
        Number(json, "first_reading_s", reading.FirstReadingS);
        Number(json, "latency_mean_ms", reading.LatencyMeanMs);
        Number(json, "latency_median_ms", reading.LatencyMedianMs);
        Number(json, "latency_p95_ms", reading.LatencyP95Ms);
        json.WriteNumber("usable_s", reading.UsableS);
        json.WriteNumber("available_s", reading.AvailableS);
        Number(json, "available_share", reading.AvailableShare);
        Number(json, "withheld_wrongly_share", reading.WithheldWronglyShare);
        json.WriteNumber("unusable_s", reading.UnusableS);
        json.WriteNumber("unusable_available_s", reading.UnusableAvailableS);
        Number(json, "withheld_rightly_share", reading.WithheldRightlyShare);
        Number(json, "wrong_per_day", reading.WrongPerDay);
        json.WriteEndObject();
    }

    /// <summary>Writes the flag of irregular rhythm as the property <c>rhythm</c>.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="rhythm">The figures, or null.</param>
    public static void WriteRhythm(Utf8JsonWriter json, RhythmScore? rhythm)
    {
        ArgumentNullException.ThrowIfNull(json);
        if (rhythm is null)
        {
            json.WriteNull("rhythm");
            return;
        }

        json.WriteStartObject("rhythm");
        json.WriteNumber("irregular_s", rhythm.IrregularS);
        json.WriteNumber("flagged_irregular_s", rhythm.FlaggedIrregularS);
        json.WriteNumber("regular_s", rhythm.RegularS);
        json.WriteNumber("flagged_regular_s", rhythm.FlaggedRegularS);
        Number(json, "sensitivity", rhythm.Sensitivity);
        Number(json, "specificity", rhythm.Specificity);
        Number(json, "positive_predictivity", rhythm.PositivePredictivity);
        json.WriteNumber("episodes", rhythm.EpisodeCount);
        json.WriteNumber("episodes_found", rhythm.FoundEpisodeCount);
        json.WriteNumber("flags", rhythm.FlagCount);
        json.WriteNumber("flags_right", rhythm.RightFlagCount);
        Number(json, "delay_mean_s", rhythm.DelayMeanS);
        json.WriteEndObject();
    }

    /// <summary>Writes what figures mean as the property <c>definitions</c>: key to sentence.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="definitions">The definitions, each key once.</param>
    public static void WriteDefinitions(Utf8JsonWriter json, IEnumerable<ScoreDefinition> definitions)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(definitions);
        json.WriteStartObject("definitions");
        foreach (ScoreDefinition definition in definitions)
        {
            json.WriteString(definition.Key, definition.Text);
        }

        json.WriteEndObject();
    }

    /// <summary>Writes a number, or null where it is undefined.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="name">Name of the property.</param>
    /// <param name="value">The number.</param>
    public static void Number(Utf8JsonWriter json, string name, double? value)
    {
        ArgumentNullException.ThrowIfNull(json);
        if (value is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void Classes(Utf8JsonWriter json, IReadOnlyList<ClassCounts> classes)
    {
        json.WriteStartArray("classes");
        foreach (ClassCounts counts in classes)
        {
            json.WriteStartObject();
            json.WriteString("class", counts.Class.Text());
            json.WriteNumber("found", counts.Found);
            json.WriteNumber("missed", counts.Missed);
            Number(json, "sensitivity", counts.Sensitivity);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
