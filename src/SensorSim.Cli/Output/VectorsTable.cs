// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Verifying;

namespace SensorSim.Cli.Output;

/// <summary>What the verbs of vector sets print.</summary>
internal static class VectorsTable
{
    /// <summary>Prints a set that was made: a row for each case.</summary>
    public static void Print(Terminal terminal, MadeSet made)
    {
        PlainTables.Print(
            terminal.Out,
            ["case", "disturbance", "level", "length s>", "requirements>", "met>", "known deviations>"],
            made.Cases.Select(c => new[]
            {
                c.Case.Name,
                c.Case.Disturbance,
                c.Case.Level.Text(),
                PlainTables.Fixed(c.Case.DurationS, "0.###"),
                Number(c.Verdicts.Count),
                Number(c.Verdicts.Count(v => v.Outcome == RequirementOutcome.Met)),
                Number(c.Verdicts.Count(v => v.Outcome == RequirementOutcome.KnownDeviation)),
            }));
    }

    /// <summary>Prints what came out of looking at a set.</summary>
    public static void Print(Terminal terminal, string folder, SetVerification verified)
    {
        if (verified.Findings.Count > 0)
        {
            PlainTables.Print(terminal.Out, ["file", "what"], verified.Findings.Select(f => new[] { f.Path, f.KindText }));
            terminal.Out.WriteLine();
        }

        string made = verified.WhyNotMade.Length == 0
            ? FormattableString.Invariant($"{Plural.Of(verified.Sums.Count, "case")} made again by generator version {Scenario.GeneratorVersion}")
            : "nothing made again";
        terminal.Out.WriteLine($"{folder}: {Plural.Of(verified.FileCount, "file")}, {State(verified)}; {made}");
    }

    // What is of another version is no fault of the set: its files are those that were signed.
    private static string State(SetVerification verified)
    {
        string[] faults =
        [
            .. verified.Findings.Where(f => f.Kind != FindingKind.OtherVersion).GroupBy(f => f.Kind).OrderBy(g => g.Key)
                .Select(g => FormattableString.Invariant($"{g.Count()} {(g.Key == FindingKind.Different ? "made differently here" : g.First().KindText)}")),
        ];
        return faults.Length > 0 ? string.Join(", ", faults)
            : verified.IsSound ? "all as they must be"
            : "all as the manifest says, but of another version than this program";
    }

    /// <summary>Writes what came out of looking at a set as one document.</summary>
    public static void Write(Stream stream, string folder, SetVerification verified) => CountsJson.Write(
        stream,
        [("set", folder), ("why_not_made", verified.WhyNotMade)],
        [("program_generator_version", Scenario.GeneratorVersion), ("file_count", verified.FileCount)],
        marks: null,
        json =>
        {
            WriteMaker(json, verified.Manifest);
            json.WriteBoolean("is_sound", verified.IsSound);
            json.WriteStartArray("findings");
            foreach (SetFinding finding in verified.Findings)
            {
                Write(json, finding);
            }

            json.WriteEndArray();
            WriteSums(json, verified.Sums);
        });

    // Of the set, as its manifest has them; what this program has stands beside them under names of its own.
    private static void WriteMaker(Utf8JsonWriter json, SetManifest? manifest)
    {
        if (manifest is null)
        {
            json.WriteNull("generator_version");
            json.WriteNull("detector");
        }
        else
        {
            json.WriteNumber("generator_version", manifest.GeneratorVersion);
            json.WriteString("detector", manifest.Detector);
        }

        json.WriteString("program_detector", SetMaker.Detector);
    }

    /// <summary>Writes one sum for each stream of each case.</summary>
    public static void WriteSums(Utf8JsonWriter json, IEnumerable<(string Case, StreamSums Sums)> cases)
    {
        json.WriteStartArray("cases");
        foreach ((string name, StreamSums sums) in cases)
        {
            json.WriteStartObject();
            json.WriteString("name", name);
            json.WriteStartObject("streams");
            foreach ((string stream, string sum) in sums.All)
            {
                json.WriteString(stream, sum);
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Writes a list of texts.</summary>
    public static void WriteList(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, SetFinding finding)
    {
        json.WriteStartObject();
        json.WriteString("file", finding.Path);
        json.WriteString("what", finding.KindText);
        json.WriteString("sentence", finding.Sentence);
        if (finding.Difference is FirstDifference first)
        {
            json.WriteStartObject("first_difference");
            json.WriteNumber("byte", first.Byte);
            if (first.Line is long line)
            {
                json.WriteNumber("line", line);
            }

            if (first.Channel is string channel)
            {
                json.WriteString("channel", channel);
            }

            if (first.Sample is long sample)
            {
                json.WriteNumber("sample", sample);
            }

            if (first.TimeS is double seconds)
            {
                json.WriteNumber("time_s", seconds);
            }

            json.WriteString("in_file", first.InFile);
            json.WriteString("made", first.Made);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static string Number(int value) => value.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
