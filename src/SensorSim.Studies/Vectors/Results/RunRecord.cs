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

    /// <summary>What is said, by name.</summary>
    public IEnumerable<(string Name, string Value)> Said =>
        new[] { ("device", Device), ("firmware", Firmware), ("operator", Operator), ("date", Date) }.Where(p => p.Item2.Length > 0);

    /// <summary>Writes it.</summary>
    /// <param name="stream">Takes UTF-8 text; left open.</param>
    /// <param name="comparison">What it is the record of.</param>
    /// <param name="files">Names and SHA-256 of the files of results that it belongs to.</param>
    public void Write(Stream stream, SetComparison comparison, IReadOnlyList<(string Name, string Sha256)> files)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(files);
        using (var json = new Utf8JsonWriter(stream, SetComparisonJson.Options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SetComparisonJson.SchemaVersion);
            foreach ((string name, string value) in Said)
            {
                json.WriteString(name, value);
            }

            json.WriteString("set", comparison.Title);
            json.WriteString("manifest_sha256", comparison.ManifestSha256);
            json.WriteNumber("generator_version", comparison.GeneratorVersion);
            json.WriteString("program_version", comparison.ProgramVersion);
            json.WriteString("answers", comparison.Answers);
            json.WriteStartObject("answers_sha256");
            foreach (ComparedCase one in comparison.Cases.Where(c => c.AnswersSha256.Length > 0))
            {
                json.WriteString(one.Planned.Name, one.AnswersSha256);
            }

            json.WriteEndObject();
            json.WriteString("outcome", comparison.IsMet ? "met" : "not_met");
            json.WriteStartObject("results_sha256");
            foreach ((string name, string sum) in files)
            {
                json.WriteString(name, sum);
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }
}
