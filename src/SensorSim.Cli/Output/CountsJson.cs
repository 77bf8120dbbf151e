// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Output;

/// <summary>The small JSON documents of verbs that score nothing.</summary>
internal static class CountsJson
{
    /// <summary>Writes one document: texts, then numbers, then what else the verb has, then a row for each kind of mark unless it makes none.</summary>
    public static void Write(
        Stream stream,
        IReadOnlyList<(string Name, string Value)> texts,
        IReadOnlyList<(string Name, double Value)> numbers,
        IReadOnlyList<(string Channel, string Kind, long Count)>? marks,
        Action<Utf8JsonWriter>? more = null)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            foreach ((string name, string value) in texts)
            {
                json.WriteString(name, value);
            }

            foreach ((string name, double value) in numbers)
            {
                json.WriteNumber(name, value);
            }

            more?.Invoke(json);
            if (marks is not null)
            {
                json.WriteStartArray("marks");
                foreach ((string channel, string kind, long count) in marks)
                {
                    json.WriteStartObject();
                    json.WriteString("channel", channel);
                    json.WriteString("kind", kind);
                    json.WriteNumber("count", count);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }
}
