// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Output;

/// <summary>Explains a table of the time line.</summary>
internal static class TimeLineText
{
    /// <summary>Prints it.</summary>
    public static void Print(TextWriter text, TimeLineTable table)
    {
        text.WriteLine($"[[{table.Name}]]");
        text.WriteLine($"  {table.Meaning}");
        foreach (TableField field in table.Fields)
        {
            text.WriteLine();
            text.WriteLine($"  {field.Name}");
            text.WriteLine($"    {field.Meaning}");
            text.WriteLine($"    unit:    {(field.Unit.Length == 0 ? "none" : field.Unit)}");
            text.WriteLine($"    allowed: {field.Allowed}");
        }
    }

    /// <summary>Writes it as one JSON document.</summary>
    public static void WriteJson(Stream stream, TimeLineTable table)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            json.WriteString("table", table.Name);
            json.WriteString("meaning", table.Meaning);
            json.WriteStartArray("fields");
            foreach (TableField field in table.Fields)
            {
                json.WriteStartObject();
                json.WriteString("name", field.Name);
                json.WriteString("meaning", field.Meaning);
                json.WriteString("unit", field.Unit);
                json.WriteString("allowed", field.Allowed);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }
}
