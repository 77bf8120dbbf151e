// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Studies.Results;

/// <summary>Writes a <see cref="LinkSummary"/> as the property <c>link</c>.</summary>
public static class LinkJson
{
    /// <summary>Writes it.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="link">What to write.</param>
    public static void WriteProperty(Utf8JsonWriter json, LinkSummary link)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(link);
        json.WriteStartObject("link");
        json.WriteString("name", link.Link);
        json.WriteString("board", link.Board?.Detector);
        ScoreJson.Number(json, "protocol_version", link.Board?.ProtocolVersion);
        ScoreJson.Number(json, "board_credit_frames", link.Board?.Credit);
        ScoreJson.Number(json, "speed", link.Speed);
        json.WriteNumber("begin_s", link.BeginS);
        json.WriteBoolean("stopped_early", link.IsStopped);
        Group(json, "host", [
            ("frames_sent", link.Counts.FramesSent),
            ("bytes_sent", link.Counts.BytesSent),
            ("frames_received", link.Counts.FramesReceived),
            ("bytes_received", link.Counts.BytesReceived),
            ("frames_damaged", link.Counts.FramesDamaged),
            ("frames_missing", link.Counts.FramesMissing),
            ("frames_repeated", link.Counts.FramesRepeated),
        ]);
        Group(json, "board_counts", [
            ("frames_accepted", link.Counts.BoardAccepted),
            ("frames_damaged", link.Counts.BoardDamaged),
            ("frames_missing", link.Counts.BoardMissing),
            ("frames_repeated", link.Counts.BoardRepeated),
            ("troubles", link.Counts.Troubles),
        ]);
        json.WriteNumber("answers_received", link.Counts.AnswersReceived);
        json.WriteNumber("answers_announced", link.Counts.AnswersAnnounced);
        json.WriteNumber("answers_lost", link.Counts.AnswersLost);
        json.WriteNumber("reconnects", link.Counts.Reconnects);
        json.WriteNumber("sessions_begun_anew", link.Counts.SessionsBegunAnew);
        WritePercentiles(json, "latency_ms", link.LatencyMs);
        json.WriteNumber("deadline_ms", link.DeadlineMs);
        json.WriteNumber("answers_judged", link.JudgedCount);
        json.WriteNumber("deadlines_missed", link.MissedDeadlines);
        WritePercentiles(json, "pacing_error_ms", link.PacingErrorMs);
        json.WriteStartObject("damage");
        foreach (LinkDamage damage in link.Damage)
        {
            Group(json, damage.Direction, damage.Counts);
        }

        json.WriteEndObject();
        json.WriteStartArray("figures");
        foreach (LinkFigure figure in link.Figures)
        {
            json.WriteStartObject();
            json.WriteString("name", figure.Name);
            ScoreJson.Number(json, "index", figure.Index);
            json.WriteNumber("value", figure.Value);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("log_lines", link.LogLineCount);
        json.WriteEndObject();
    }

    private static void Group(Utf8JsonWriter json, string name, IReadOnlyList<(string Name, long Value)> values)
    {
        json.WriteStartObject(name);
        foreach ((string key, long value) in values)
        {
            json.WriteNumber(key, value);
        }

        json.WriteEndObject();
    }

    private static void WritePercentiles(Utf8JsonWriter json, string name, Percentiles? percentiles)
    {
        if (percentiles is not Percentiles p || p.Count == 0)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteNumber("count", p.Count);
        json.WriteNumber("p50", p.P50);
        json.WriteNumber("p90", p.P90);
        json.WriteNumber("p99", p.P99);
        json.WriteNumber("largest", p.Largest);
        json.WriteEndObject();
    }
}
