// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Detectors;
using SensorSim.Scenarios;

namespace SensorSim.Grading.Report;

/// <summary>Writes the table.</summary>
internal static class MarkdownReport
{
    /// <summary>The table as Markdown.</summary>
    /// <param name="options">What was run.</param>
    /// <param name="sections">Groups and their lines.</param>
    public static string Write(GradingOptions options, IReadOnlyList<(string Title, IReadOnlyList<FigureRow> Rows)> sections)
    {
        using var detector = new LibraryDetector();
        IEnumerable<FigureRow> rows = sections.SelectMany(s => s.Rows);
        var text = new StringBuilder();
        Line(text, "# Figures of the detector");
        Line(text, "");
        Line(text, "Written by `dotnet run -c Release --project tests/SensorSim.Grading -- --out docs/detection-figures.md`; what each line means: [grading.md](grading.md).");
        Line(text, $"Detector {detector.Name}, generator version {Scenario.GeneratorVersion}. Synthetic signals (but for the recorded ECG): no clinical evidence.");
        Line(text, "");
        string quick = options.IsQuick ? "Short run (`--quick`). " : "";
        Line(text, $"{quick}Graded scenarios: seeds 1 to {options.Seeds}; clean set: subject seeds and seeds 1 to {options.Subjects}; mixed days: subject seeds and seeds 1 to {options.Days}.");
        Line(text, "Counts over all seeds together; in brackets 95 % intervals: of shares by Wilson, of numbers a day by Poisson. Beats of one record depend on each other, so the intervals are rather too narrow.");
        Line(text, "");
        Line(text, $"{rows.Count(r => r.Verdict == "met")} met, {rows.Count(r => r.Verdict.StartsWith("no", StringComparison.Ordinal) && r.Verdict != Judge.NotGiven)} not met, {rows.Count(r => r.Verdict == Judge.NotGiven)} not given yet, {rows.Count(r => r.Verdict == "reported")} reported only.");
        foreach ((string title, IReadOnlyList<FigureRow> lines) in sections)
        {
            Line(text, "");
            Line(text, $"## {title}");
            Line(text, "");
            Line(text, "| input | requirement | measured | met |");
            Line(text, "|---|---|---|---|");
            foreach (FigureRow row in lines)
            {
                Line(text, $"| {row.Input} | {row.Requirement} | {row.Measured} | {row.Verdict} |");
            }
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, FormattableString line) => Line(text, FormattableString.Invariant(line));

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
