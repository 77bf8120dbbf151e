// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Writes the traceability matrix: each requirement with its cases and their results, then every result, in Markdown.</summary>
public static class TraceMatrix
{
    // What a reader has to know first stands first.
    private static readonly RequirementOutcome[] s_worstFirst =
        [RequirementOutcome.NotMet, RequirementOutcome.NotJudged, RequirementOutcome.KnownDeviation, RequirementOutcome.Met];

    /// <summary>The text.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="record">Who ran it; what is said stands at the head.</param>
    public static string Text(SetComparison comparison, RunRecord record)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(record);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"# {Cell(comparison.Title)}: requirements and results\n\n");
        text.Append(CultureInfo.InvariantCulture, $"Outcome: **{(comparison.IsMet ? "met" : "not met")}**. {Totals(comparison)}.\n\n");
        foreach ((string name, string value) in record.Said)
        {
            text.Append(CultureInfo.InvariantCulture, $"- {name}: {Cell(value)}\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"- answers: {Cell(comparison.Answers)}\n");
        text.Append(CultureInfo.InvariantCulture, $"- set: manifest SHA-256 `{comparison.ManifestSha256}`, generator version {comparison.GeneratorVersion}\n");
        text.Append(CultureInfo.InvariantCulture, $"- compared by: sensorsim {comparison.ProgramVersion}\n\nSimulated signals: no clinical evidence.\n\n");
        if (!comparison.IsAgainstExpected)
        {
            Requirements(text, comparison);
        }

        Results(text, comparison);
        if (!comparison.IsAgainstExpected)
        {
            Uncovered(text, comparison);
        }

        return text.ToString();
    }

    private static string Totals(SetComparison comparison)
    {
        if (comparison.IsAgainstExpected)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{comparison.Cases.Count(c => c.IsMet)} of {comparison.Cases.Count} cases are as expected, to the last digit");
        }

        RequirementVerdict[] all = [.. comparison.Verdicts];
        return string.Create(CultureInfo.InvariantCulture, $"Of {all.Length} results {string.Join(", ", s_worstFirst.Reverse().Select(o => $"{all.Count(v => v.Outcome == o)} {Shown(o)}"))}");
    }

    private static void Requirements(StringBuilder text, SetComparison comparison)
    {
        text.Append("## Requirements\n\n| id | requirement | from | result | cases |\n|---|---|---|---|---|\n");
        foreach (PlannedRequirement requirement in comparison.Requirements)
        {
            ILookup<RequirementOutcome, string> cases = comparison.Verdicts.Where(v => v.RequirementId == requirement.Id).ToLookup(v => v.Outcome, v => v.CaseName);
            RequirementOutcome[] had = [.. s_worstFirst.Where(cases.Contains)];
            string result = had.Length == 0 ? "no case" : Shown(had[0]);
            string all = string.Join("; ", had.Select(o => $"{Shown(o)}: {string.Join(", ", cases[o].Select(Cell))}"));
            text.Append(CultureInfo.InvariantCulture, $"| {Cell(requirement.Id)} | {Cell(requirement.Text)} | {Cell(requirement.Clause)} | {result} | {all} |\n");
        }

        text.Append('\n');
    }

    private static void Results(StringBuilder text, SetComparison comparison)
    {
        text.Append("## Results\n\n| case | level | disturbance | requirement | result | figures |\n|---|---|---|---|---|---|\n");
        foreach (ComparedCase one in comparison.Cases)
        {
            string start = $"| {Cell(one.Planned.Name)} | {one.Planned.Level.Text().Replace('_', ' ')} | {Cell(one.Planned.Disturbance)} |";
            if (one.Fault.Length > 0)
            {
                text.Append(CultureInfo.InvariantCulture, $"{start}  | not met | {Cell(one.Fault)} |\n");
            }

            if (one.Difference is not null)
            {
                text.Append(CultureInfo.InvariantCulture, $"{start} expected answers | {(one.Difference.IsExact ? "met" : "not met")} | {Cell(one.Difference.Sentence)} |\n");
            }

            foreach (RequirementVerdict verdict in one.Verdicts)
            {
                text.Append(CultureInfo.InvariantCulture, $"{start} {Cell(verdict.RequirementId)} | {Shown(verdict.Outcome)} | {Cell(verdict.Sentence)} |\n");
            }
        }

        text.Append('\n');
    }

    private static void Uncovered(StringBuilder text, SetComparison comparison)
    {
        text.Append("## Not covered\n\n");
        List(text, "Requirements that no case is held against", comparison.UncoveredRequirements.Select(r => $"{r.Id} ({r.Text})"));
        List(text, "Cases that ask nothing", comparison.UncoveredCases.Select(c => c.Planned.Name));
    }

    private static void List(StringBuilder text, string what, IEnumerable<string> names)
    {
        string all = string.Join(", ", names.Select(Cell));
        text.Append(CultureInfo.InvariantCulture, $"- {what}: {(all.Length > 0 ? all : "none")}.\n");
    }

    private static string Shown(RequirementOutcome outcome) => outcome.Text().Replace('_', ' ');

    // What a plan or a path says is text, not markup.
    private static string Cell(string words)
    {
        var plain = new StringBuilder(words.Length);
        foreach (char c in words)
        {
            plain.Append(c switch
            {
                '|' or '*' or '[' or ']' or '`' or '\\' or '_' => $"\\{c}",
                '<' => "&lt;",
                '>' => "&gt;",
                '&' => "&amp;",
                _ when char.IsControl(c) => " ",
                _ => c.ToString(),
            });
        }

        return plain.ToString();
    }
}
