// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>Judges the rules withheld and shown.</summary>
internal static class StretchJudge
{
    public static Finding Withheld(PlannedRequirement requirement, IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        IReadOnlyList<Answer> given = answers.Of(requirement.Kind, requirement.Channel);
        long count = 0;
        long? firstNs = null;
        foreach (AcceptanceRow row in rows)
        {
            (int first, int after) = CaseAnswers.Between(given, row.BeginNs, row.EndNs);
            count += after - first;
            if (after > first)
            {
                firstNs = Finding.Earlier(firstNs, given[first].TimeNs);
            }
        }

        double seconds = rows.Sum(r => r.EndNs - r.BeginNs + 1) * 1e-9;
        string stretches = string.Create(CultureInfo.InvariantCulture, $"{rows.Count} stretches, {seconds:0.###} s in all");
        return Finding.Of(
            count == 0,
            count == 0 ? $"nothing was given in {stretches}"
                : string.Create(CultureInfo.InvariantCulture, $"{count} given in {stretches}, where nothing may be; first at {Finding.At(firstNs ?? 0)}"),
            [new VerdictFigure("given_count", count, 0), new VerdictFigure("withheld_s", seconds)],
            firstNs);
    }

    public static Finding Shown(IReadOnlyList<AcceptanceRow> rows, CaseAnswers answers)
    {
        long shown = 0;
        long? firstMissing = null;
        foreach (AcceptanceRow row in rows)
        {
            IReadOnlyList<Answer> given = answers.Of(row.Kind, row.Channel);
            (int first, int after) = CaseAnswers.Between(given, row.BeginNs, row.EndNs);
            bool isShown = false;
            for (int i = first; i < after && !isShown; i++)
            {
                isShown = row.Allows(given[i].Value) && (given[i].EmittedNs is not long emitted || emitted <= row.EmittedByNs);
            }

            shown += isShown ? 1 : 0;
            if (!isShown)
            {
                firstMissing ??= row.EndNs;
            }
        }

        string value = double.IsNaN(rows[0].Low) ? "" : $" with the value {Finding.Text(rows[0].Low)}";
        string text = string.Create(CultureInfo.InvariantCulture, $"shown{value} in {shown} of {rows.Count} stretches");
        return Finding.Of(
            firstMissing is null,
            firstMissing is long missing ? $"{text}; first missing by {Finding.At(missing)}" : text,
            [new VerdictFigure("stretch_count", rows.Count), new VerdictFigure("shown_count", shown, rows.Count)],
            firstMissing);
    }
}
