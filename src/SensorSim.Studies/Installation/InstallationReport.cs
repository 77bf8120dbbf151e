// SPDX-License-Identifier: MIT
using System.Reflection;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Studies.Results;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Studies.Installation;

/// <summary>The checks in Markdown and as JSON. Both name the installation: program, operating system, runtime, processor; not the time, the machine or its user.</summary>
public static class InstallationReport
{
    /// <summary>Writes the checks for people: a table in Markdown.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="outcomes">The checks.</param>
    /// <param name="programFolder">Folder of the command.</param>
    /// <param name="command">The command.</param>
    public static void WriteMarkdown(Stream stream, IReadOnlyList<CheckOutcome> outcomes, string programFolder, Assembly command)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(outcomes);
        using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { NewLine = "\n" };
        writer.WriteLine("# Installation check");
        writer.WriteLine();
        writer.WriteLine(FormattableString.Invariant($"sensorsim {ProgramFiles.VersionOf(command)}, generator version {Scenario.GeneratorVersion}, detection library {SetMaker.Detector}."));
        writer.WriteLine();
        writer.WriteLine($"Checked on {Cell(OperatingSystemName)}, {Cell(RuntimeInformation.FrameworkDescription)}, {Architecture}.");
        writer.WriteLine();
        writer.WriteLine(outcomes.All(o => o.HasPassed) ? "**Passed.**" : "**FAILED.** Do not use this installation until every check passes.");
        writer.WriteLine();
        writer.WriteLine("| check | result | found | proves |");
        writer.WriteLine("|---|---|---|---|");
        foreach (CheckOutcome outcome in outcomes)
        {
            writer.WriteLine($"| {Cell(outcome.Name)} | {Word(outcome)} | {Cell(outcome.Finding.Detail)} | {Cell(outcome.Proves)} |");
        }

        if (Anomalies(outcomes) is { Length: > 0 } anomalies)
        {
            writer.WriteLine();
            writer.WriteLine("Known anomalies that showed, as the plan of the set lists them with their reasons:");
            writer.WriteLine();
            writer.WriteLine("| case | requirement |");
            writer.WriteLine("|---|---|");
            foreach ((string caseName, string requirementId) in anomalies)
            {
                writer.WriteLine($"| {Cell(caseName)} | {Cell(requirementId)} |");
            }
        }

        writer.WriteLine();
        writer.WriteLine("| own part of the program | SHA-256 |");
        writer.WriteLine("|---|---|");
        foreach ((string name, string sum) in ProgramFiles.Sums(programFolder))
        {
            writer.WriteLine($"| {Cell(name)} | {sum} |");
        }

        writer.WriteLine();
        writer.WriteLine("What the checks prove of the program says nothing about a detector or a board of yours, and simulated performance is not clinical evidence.");
    }

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where to.</param>
    /// <param name="outcomes">The checks.</param>
    /// <param name="programFolder">Folder of the command.</param>
    /// <param name="command">The command.</param>
    public static void WriteJson(Stream stream, IReadOnlyList<CheckOutcome> outcomes, string programFolder, Assembly command)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(outcomes);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            json.WriteString("version", ProgramFiles.VersionOf(command));
            json.WriteNumber("generator_version", Scenario.GeneratorVersion);
            json.WriteString("detector", SetMaker.Detector);
            json.WriteString("operating_system", OperatingSystemName);
            json.WriteString("runtime", RuntimeInformation.FrameworkDescription);
            json.WriteString("processor", Architecture);
            json.WriteBoolean("passed", outcomes.All(o => o.HasPassed));
            json.WriteStartArray("checks");
            foreach (CheckOutcome outcome in outcomes)
            {
                json.WriteStartObject();
                json.WriteString("check", outcome.Name);
                json.WriteString("result", Word(outcome));
                json.WriteString("found", outcome.Finding.Detail);
                json.WriteString("proves", outcome.Proves);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("known_anomalies");
            foreach ((string caseName, string requirementId) in Anomalies(outcomes))
            {
                json.WriteStartObject();
                json.WriteString("case", caseName);
                json.WriteString("requirement", requirementId);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("program_files");
            foreach ((string name, string sum) in ProgramFiles.Sums(programFolder))
            {
                json.WriteStartObject();
                json.WriteString("file", name);
                json.WriteString("sha256", sum);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static string OperatingSystemName => OneLine.Of(RuntimeInformation.OSDescription);

    private static string Architecture => RuntimeInformation.ProcessArchitecture.ToString().ToLowerInvariant();

    private static (string CaseName, string RequirementId)[] Anomalies(IReadOnlyList<CheckOutcome> outcomes) => [.. outcomes.SelectMany(o => o.Finding.Anomalies)];

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);

    /// <summary>The word of an outcome.</summary>
    /// <param name="outcome">The outcome.</param>
    public static string Word(CheckOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        return outcome.HasPassed ? "passed" : "FAILED";
    }
}
