// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Judging;
using SensorSim.Studies.Vectors.Results;

namespace SensorSim.Cli.Output;

/// <summary>What <c>vectors compare</c> prints.</summary>
internal static class SetComparisonTable
{
    private const int MostSaid = 20;

    /// <summary>Prints a row for each case, and what is not covered.</summary>
    public static void Print(Terminal terminal, SetComparison comparison)
    {
        terminal.Out.WriteLine($"{comparison.Title}: answers of {comparison.Answers}");
        if (comparison.IsAgainstExpected)
        {
            PlainTables.PrintApart(
                terminal.Out,
                ["case", "same>", "expected>", "given>", "result"],
                comparison.Cases.Select(c => new[]
                {
                    c.Planned.Name, Text(c.Difference?.EqualCount), Text(c.Difference?.ExpectedCount), Text(c.Difference?.GivenCount), Result(c),
                }));
        }
        else
        {
            PlainTables.PrintApart(
                terminal.Out,
                ["case", "level", "requirements>", "met>", "known deviations>", "result"],
                comparison.Cases.Select(c => new[]
                {
                    c.Planned.Name,
                    c.Planned.Level.Text(),
                    Text(c.Planned.Requirements.Count),
                    Text(Count(c, RequirementOutcome.Met)),
                    Text(Count(c, RequirementOutcome.KnownDeviation)),
                    Result(c),
                }));
        }

        List(terminal, "requirements that no case is held against", comparison.UncoveredRequirements.Select(r => r.Id));
        List(terminal, "cases that ask nothing", comparison.UncoveredCases.Select(c => c.Planned.Name));
        terminal.Out.WriteLine(comparison.IsMet ? "requirements met" : "requirements not met");
    }

    /// <summary>Says what failed, each in a sentence.</summary>
    public static void SayFaults(Terminal terminal, SetComparison comparison)
    {
        List<string> faults = [.. comparison.Cases.SelectMany(Faults)];
        foreach (string fault in faults.Take(MostSaid))
        {
            terminal.Say(fault);
        }

        if (faults.Count > MostSaid)
        {
            terminal.Say(string.Create(CultureInfo.InvariantCulture, $"and {faults.Count - MostSaid} more; --json or --out lists all"));
        }
    }

    private static IEnumerable<string> Faults(ComparedCase one)
    {
        if (one.Fault.Length > 0)
        {
            yield return $"{one.Planned.Name}: {one.Fault}";
        }

        if (one.Difference is { IsExact: false } difference)
        {
            yield return $"{one.Planned.Name}: {difference.Sentence}";
        }

        foreach (RequirementVerdict verdict in one.Verdicts.Where(v => v.IsFault))
        {
            yield return $"{one.Planned.Name}, {verdict.RequirementId}: {(verdict.Outcome == RequirementOutcome.NotJudged ? "not judged: " : "")}{verdict.Sentence}";
        }
    }

    private static void List(Terminal terminal, string what, IEnumerable<string> names)
    {
        string all = string.Join(", ", names);
        if (all.Length > 0)
        {
            terminal.Out.WriteLine($"{what}: {all}");
        }
    }

    private static string Result(ComparedCase one) => one.IsMet ? "met" : "not met";

    private static int Count(ComparedCase one, RequirementOutcome outcome) => one.Verdicts.Count(v => v.Outcome == outcome);

    private static string Text(long? count) => count?.ToString(CultureInfo.InvariantCulture) ?? "-";
}
