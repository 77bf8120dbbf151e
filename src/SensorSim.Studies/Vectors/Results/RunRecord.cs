// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Who ran what when, as the user says it. It lies beside the results, in a file of its own: nothing that is hashed depends on it.</summary>
public sealed record RunRecord
{
    /// <summary>Device that answered; empty when not said.</summary>
    public string Device { get; init; } = "";

    /// <summary>Version of its firmware; empty when not said.</summary>
    public string Firmware { get; init; } = "";

    /// <summary>Who ran it; empty when not said.</summary>
    public string Operator { get; init; } = "";

    /// <summary>Date, as the user wrote it; empty when not said.</summary>
    public string Date { get; init; } = "";

    /// <summary>Whether anything is said.</summary>
    public bool IsEmpty => Device.Length + Firmware.Length + Operator.Length + Date.Length == 0;

    /// <summary>Writes it.</summary>
    /// <param name="stream">Takes UTF-8 text; left open.</param>
    /// <param name="comparison">What it is the record of.</param>
    public void Write(Stream stream, SetComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(comparison);
        using (var json = new Utf8JsonWriter(stream, SetComparisonJson.Options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SetComparisonJson.SchemaVersion);
            Text(json, "device", Device);
            Text(json, "firmware", Firmware);
            Text(json, "operator", Operator);
            Text(json, "date", Date);
            json.WriteString("set", comparison.Title);
            json.WriteString("manifest_sha256", comparison.ManifestSha256);
            json.WriteString("answers", comparison.Answers);
            json.WriteString("outcome", comparison.IsMet ? "met" : "not_met");
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Text(Utf8JsonWriter json, string name, string value)
    {
        if (value.Length > 0)
        {
            json.WriteString(name, value);
        }
    }
}
