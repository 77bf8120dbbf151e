// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Answers;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Writes a comparison as JSON: <c>results.json</c>, and what <c>--json</c> prints.</summary>
public static class SetComparisonJson
{
    internal const int SchemaVersion = 1;

    internal static JsonWriterOptions Options => new() { Indented = true, NewLine = "\n" };

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Takes UTF-8 text; left open.</param>
    /// <param name="comparison">The comparison.</param>
    public static void Write(Stream stream, SetComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(comparison);
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SchemaVersion);
            json.WriteString("set", comparison.Title);
            json.WriteString("manifest_sha256", comparison.ManifestSha256);
            json.WriteNumber("generator_version", comparison.GeneratorVersion);
            json.WriteString("program_version", comparison.ProgramVersion);
            json.WriteString("answers", comparison.Answers);
            json.WriteString("against", comparison.IsAgainstExpected ? "expected" : "acceptance");
            json.WriteBoolean("is_met", comparison.IsMet);
            json.WriteStartArray("cases");
            foreach (ComparedCase one in comparison.Cases)
            {
                Case(json, one);
            }

            json.WriteEndArray();
            Names(json, "requirements_without_case", comparison.UncoveredRequirements.Select(r => r.Id));
            Names(json, "cases_without_requirement", comparison.UncoveredCases.Select(c => c.Planned.Name));
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Case(Utf8JsonWriter json, ComparedCase one)
    {
        json.WriteStartObject();
        json.WriteString("case", one.Planned.Name);
        json.WriteString("level", one.Planned.Level.Text());
        json.WriteString("disturbance", one.Planned.Disturbance);
        json.WriteBoolean("is_met", one.IsMet);
        if (one.AnswersSha256.Length > 0)
        {
            json.WriteString("answers_sha256", one.AnswersSha256);
        }

        if (one.Fault.Length > 0)
        {
            json.WriteString("fault", one.Fault);
        }

        if (one.Difference is AnswerDifference difference)
        {
            json.WriteStartObject("expected");
            json.WriteNumber("equal_count", difference.EqualCount);
            json.WriteNumber("expected_count", difference.ExpectedCount);
            json.WriteNumber("given_count", difference.GivenCount);
            json.WriteString("sentence", difference.Sentence);
            json.WriteEndObject();
        }

        json.WriteStartArray("requirements");
        foreach (RequirementVerdict verdict in one.Verdicts)
        {
            Verdict(json, verdict);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Verdict(Utf8JsonWriter json, RequirementVerdict verdict)
    {
        json.WriteStartObject();
        json.WriteString("requirement", verdict.RequirementId);
        json.WriteString("outcome", verdict.Outcome.Text());
        json.WriteString("sentence", verdict.Sentence);
        if (verdict.FirstFaultNs is long first)
        {
            json.WriteNumber("first_fault_s", first * 1e-9);
        }

        json.WriteStartArray("figures");
        foreach (VerdictFigure figure in verdict.Figures)
        {
            json.WriteStartObject();
            json.WriteString("name", figure.Name);
            Number(json, "value", figure.Value);
            Number(json, "limit", figure.Limit);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void Names(Utf8JsonWriter json, string name, IEnumerable<string> names)
    {
        json.WriteStartArray(name);
        foreach (string one in names)
        {
            json.WriteStringValue(one);
        }

        json.WriteEndArray();
    }
}
