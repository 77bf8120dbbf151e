// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.Subjects;

namespace SensorSim.Studies.Results;

/// <summary>Writes a drawn person as JSON: alone beside a recording, or inside another document.</summary>
public static class SubjectJson
{
    /// <summary>Writes a document of its own, with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="subject">The person.</param>
    public static void Write(Stream stream, DrawnSubject subject)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(subject);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            Properties(json, subject);
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    /// <summary>Writes the property <c>subject</c> of an object; null when nobody was drawn.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="subject">The person, or null.</param>
    public static void WriteProperty(Utf8JsonWriter json, DrawnSubject? subject)
    {
        ArgumentNullException.ThrowIfNull(json);
        if (subject is null)
        {
            json.WriteNull("subject");
            return;
        }

        json.WriteStartObject("subject");
        Properties(json, subject);
        json.WriteEndObject();
    }

    private static void Properties(Utf8JsonWriter json, DrawnSubject subject)
    {
        json.WriteNumber("seed", subject.Seed);
        json.WriteStartArray("values");
        foreach (DrawnValue value in subject.Values)
        {
            json.WriteStartObject();
            json.WriteString("key", value.Key.Name);
            if (value.Word.Length > 0)
            {
                json.WriteString("value", value.Word);
            }
            else
            {
                json.WriteNumber("value", value.Number);
            }

            json.WriteString("unit", value.Key.Unit);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
