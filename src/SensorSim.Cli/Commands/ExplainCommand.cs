// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Text.Json;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Commands;

/// <summary><c>explain</c>: what a key means, its unit, range, default and source; where the lamps of a scenario show in its slots.</summary>
internal static class ExplainCommand
{
    public static Command Create(Terminal terminal)
    {
        var name = new Argument<string?>("KEY")
        {
            Description = "A key such as heart.rate_bpm, a section such as heart, or change or activity; without it every key of a scenario is listed; study: those of a study; plan: those of a vector plan. "
                + "Or a scenario file that ends in .toml: where its lamps show in the optical slots",
            Arity = ArgumentArity.ZeroOrOne,
        };
        Option<bool> json = CommonOptions.Json();
        var command = new Command("explain", "Say what a key of a scenario, study or vector plan means, its unit, range, default and source; of a scenario, where its lamps show in the optical slots.") { name, json };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(name) is string table && TimeLineTables.Find(table.Trim('[', ']')) is TimeLineTable found)
            {
                Explain(terminal, found, parsed.GetValue(json));
                return ExitCodes.Done;
            }

            if (parsed.GetValue(name) is string file && file.EndsWith(".toml", StringComparison.OrdinalIgnoreCase))
            {
                Explain(terminal, ScenarioReader.ReadFile(file), parsed.GetValue(json));
                return ExitCodes.Done;
            }

            IReadOnlyList<KeyDefinition> keys = Select(parsed.GetValue(name));
            if (parsed.GetValue(json))
            {
                WriteJson(terminal.OutStream, keys);
            }
            else if (keys.Count == 1 && keys[0].Name == parsed.GetValue(name))
            {
                PrintOne(terminal.Out, keys[0]);
            }
            else
            {
                PrintList(terminal.Out, keys);
            }

            return ExitCodes.Done;
        });
        return command;
    }

    private static void Explain(Terminal terminal, TimeLineTable table, bool isJson)
    {
        if (isJson)
        {
            TimeLineText.WriteJson(terminal.OutStream, table);
        }
        else
        {
            TimeLineText.Print(terminal.Out, table);
        }
    }

    private static void Explain(Terminal terminal, Scenario scenario, bool isJson)
    {
        if (isJson)
        {
            AmbientText.WriteJson(terminal.OutStream, scenario);
        }
        else
        {
            AmbientText.Print(terminal.Out, scenario);
        }
    }

    private static IReadOnlyList<KeyDefinition> Select(string? name)
    {
        IReadOnlyList<KeyDefinition> all = AllKeys.List();
        if (name is null)
        {
            return all;
        }

        // The words study and plan stand for all that such a file may hold.
        if (name.Trim('[', ']') == "study")
        {
            return StudyKeys.All;
        }

        if (name == "plan")
        {
            return PlanKeys.All;
        }

        all = [.. all, .. StudyKeys.All, .. PlanKeys.All, .. LibraryConstants.All];
        List<KeyDefinition> found = [.. all.Where(k => k.Name == name || k.Section == name.Trim('[', ']'))];
        if (found.Count == 0)
        {
            IEnumerable<string> names = all.Select(k => k.Name).Concat(AllKeys.Sections()).Concat(StudyKeys.Sections).Concat(PlanKeys.Sections).Concat(TimeLineTables.All.Select(t => t.Name));
            throw new UsageException($"{name} is no key and no section; the nearest is {all.FirstOrDefault(k => k.Key == name)?.Name ?? NearestName.Find(name, names)}");
        }

        return found;
    }

    private static void PrintOne(TextWriter text, KeyDefinition key)
    {
        text.WriteLine(key.Name);
        text.WriteLine($"  {key.Meaning}");
        text.WriteLine($"  unit:    {(key.Unit.Length == 0 ? "none" : key.Unit)}");
        text.WriteLine($"  range:   {key.RangeText}");
        text.WriteLine($"  default: {DefaultText(key)}");
        text.WriteLine($"  changes: {Changes(key)}");
        text.WriteLine($"  source:  {key.Source}");
    }

    private static string Changes(KeyDefinition key) => StudyKeys.All.Contains(key) || LibraryConstants.All.Contains(key) ? "fixed for the whole study"
        : PlanKeys.All.Contains(key) ? "fixed for the whole case"
        : ChangingKeys.MayChange(key) ? "may change over time ([[change]])"
        : "fixed for the whole scenario";

    private static void PrintList(TextWriter text, IReadOnlyList<KeyDefinition> keys)
    {
        foreach (IGrouping<string, KeyDefinition> section in keys.GroupBy(k => k.Section))
        {
            text.WriteLine(PlanKeys.Sections.Contains(section.Key, StringComparer.Ordinal) ? PlanKeys.Shown(section.Key) : StudyKeys.Shown(section.Key));
            foreach (KeyDefinition key in section)
            {
                text.WriteLine($"  {key.Key,-44} {DefaultText(key),-10} {key.Unit,-12} {key.RangeText}");
            }

            text.WriteLine();
        }

        text.WriteLine("Columns: key, default, unit, allowed values. One key in full: sensorsim explain KEY");
        text.WriteLine("The time line: sensorsim explain change, sensorsim explain activity. A study file: sensorsim explain study. A vector plan: sensorsim explain plan. Constants of the library: sensorsim explain detector");
    }

    private static string DefaultText(KeyDefinition key) => key.HasDefault ? key.DefaultText : "not set";

    private static void WriteJson(Stream stream, IReadOnlyList<KeyDefinition> keys)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            json.WriteStartArray("keys");
            foreach (KeyDefinition key in keys)
            {
                json.WriteStartObject();
                json.WriteString("name", key.Name);
                json.WriteString("meaning", key.Meaning);
                json.WriteString("unit", key.Unit);
                json.WriteString("range", key.RangeText);
                if (key.HasDefault)
                {
                    json.WriteString("default", key.DefaultText);
                }
                else
                {
                    json.WriteNull("default");
                }

                json.WriteBoolean("live", key.IsLive);
                json.WriteBoolean("may_change", ChangingKeys.MayChange(key));
                json.WriteString("source", key.Source);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }
}
