// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Results;

/// <summary>Writes the traceability matrix: requirement by case, with the result, in Markdown.</summary>
public static class TraceMatrix
{
    /// <summary>The text.</summary>
    /// <param name="comparison">The comparison.</param>
    public static string Text(SetComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"# {Cell(comparison.Title)}: requirements and results\n\n");
        text.Append(CultureInfo.InvariantCulture, $"Answers: {Cell(comparison.Answers)}. Set: manifest SHA-256 `{comparison.ManifestSha256}`, generator version ");
        text.Append(FormattableString.Invariant($"{comparison.GeneratorVersion}. Simulated signals: no clinical evidence.\n\n"));
        Matrix(text, comparison);
        Requirements(text, comparison);
        Results(text, comparison);
        Uncovered(text, comparison);
        return text.ToString();
    }

    private static void Matrix(StringBuilder text, SetComparison comparison)
    {
        text.Append("| case |");
        Row(text, comparison.Requirements.Select(r => Cell(r.Id)));
        text.Append("|---|");
        Row(text, comparison.Requirements.Select(_ => "---"), "");
        foreach (ComparedCase one in comparison.Cases)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {Cell(one.Planned.Name)} |");
            Row(text, comparison.Requirements.Select(r => one.Verdicts.FirstOrDefault(v => v.RequirementId == r.Id) is RequirementVerdict verdict
                ? Shown(verdict.Outcome) : one.Planned.Requirements.Any(p => p.Id == r.Id) ? "not judged" : ""));
        }

        text.Append('\n');
    }

    private static void Requirements(StringBuilder text, SetComparison comparison)
    {
        text.Append("## Requirements\n\n| id | requirement | from | met | not met | known deviation | not judged |\n|---|---|---|---:|---:|---:|---:|\n");
        foreach (PlannedRequirement requirement in comparison.Requirements)
        {
            int[] counts = [.. Enum.GetValues<RequirementOutcome>().Select(o => comparison.Verdicts.Count(v => v.RequirementId == requirement.Id && v.Outcome == o))];
            text.Append(CultureInfo.InvariantCulture, $"| {Cell(requirement.Id)} | {Cell(requirement.Text)} | {Cell(requirement.Clause)} |");
            Row(text, counts.Select(c => FormattableString.Invariant($"{c}")));
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

    private static void Row(StringBuilder text, IEnumerable<string> cells, string around = " ")
    {
        foreach (string cell in cells)
        {
            text.Append(CultureInfo.InvariantCulture, $"{around}{cell}{around}|");
        }

        text.Append('\n');
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
