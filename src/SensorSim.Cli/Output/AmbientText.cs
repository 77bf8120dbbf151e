// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;
using SensorSim.Scenarios;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Output;

/// <summary>Prints where the lamps of a scenario's room fold to in its optical slots, as text or JSON.</summary>
internal static class AmbientText
{
    /// <summary>Prints a table: one line for each line of light.</summary>
    /// <param name="text">Where to.</param>
    /// <param name="scenario">The scenario.</param>
    public static void Print(TextWriter text, Scenario scenario)
    {
        IReadOnlyList<AmbientLine> lines = AmbientAlias.Of(scenario.Values);
        text.WriteLine(scenario.Title);
        if (scenario.SensorTitle.Length > 0)
        {
            text.WriteLine($"sensor: {scenario.SensorTitle}");
        }

        IEnumerable<string> apart = lines[0].Left.Select(s => Invariant($"{s.ApartSeconds * 1e6:0.###} µs after {s.Slot.Text()}"));
        text.WriteLine();
        text.WriteLine(Invariant(
            $"Lamps in slots of {scenario.Values[OpticsKeys.RateHz]:R} Hz that gather light for {scenario.Values[OpticsKeys.IntegrationUs]:R} µs; the dark slot {string.Join(", ", apart)}."));
        text.WriteLine("Knobs that change count with their first value.");
        text.WriteLine();
        text.Write($"  {"line",-27}{"at [Hz]",12}{"shows at [Hz]",15}{"size [nA]",12}");
        text.WriteLine(string.Concat(lines[0].Left.Select(s => $"{"left in " + s.Slot.Text() + " [%]",24}")));
        foreach (AmbientLine line in lines)
        {
            string name = line.Source.Replace('_', ' ') + (line.Multiple == 1 ? "" : Invariant($", {line.Multiple} times"));
            text.Write(Invariant($"  {name,-27}{line.FrequencyHz,12:0.###}{line.AliasHz,15:0.###}{line.AmplitudeNa,12:0.###}"));
            text.WriteLine(string.Concat(line.Left.Select(s => Invariant($"{100 * s.Share,24:0.###}"))));
        }

        text.WriteLine();
        text.WriteLine("size: amplitude in one slot; left: of that, when the dark slot is taken off the lit one.");
    }

    /// <summary>Writes one JSON document with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="scenario">The scenario.</param>
    public static void WriteJson(Stream stream, Scenario scenario)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            json.WriteString("scenario", scenario.File);
            json.WriteString("title", scenario.Title);
            SummaryJson.WriteIdentity(json, scenario.Subject, scenario.ReferencedFiles, scenario.SensorTitle);
            json.WriteNumber("rate_hz", scenario.Values[OpticsKeys.RateHz]);
            json.WriteNumber("integration_us", scenario.Values[OpticsKeys.IntegrationUs]);
            json.WriteStartArray("ambient_lines");
            foreach (AmbientLine line in AmbientAlias.Of(scenario.Values))
            {
                json.WriteStartObject();
                json.WriteString("source", line.Source);
                json.WriteNumber("multiple", line.Multiple);
                json.WriteNumber("frequency_hz", line.FrequencyHz);
                json.WriteNumber("alias_hz", line.AliasHz);
                json.WriteNumber("amplitude_na", line.AmplitudeNa);
                json.WriteStartArray("dark_subtraction");
                foreach (SlotRemainder left in line.Left)
                {
                    json.WriteStartObject();
                    json.WriteString("channel", left.Slot.Text());
                    json.WriteNumber("apart_us", left.ApartSeconds * 1e6);
                    json.WriteNumber("left_percent", 100 * left.Share);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
