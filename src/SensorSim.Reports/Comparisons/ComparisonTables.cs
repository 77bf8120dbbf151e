// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Reports.StudyReports;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

namespace SensorSim.Reports.Comparisons;

/// <summary>The tables of a comparison.</summary>
internal static class ComparisonTables
{
    internal static Table Differences(string name, string caption, StudyPlan plan, IEnumerable<PairedDifference> differences)
    {
        var table = new Table(
            name,
            caption,
            [
                new("figure", "Figure"),
                new("at", "At"),
                new("first", "First", true),
                new("second", "Second", true),
                new("difference", "Difference", true),
                new("difference_low", "from", true),
                new("difference_high", "to", true),
                new("swap_p", "p", true),
                new("verdict", "The second is"),
                new("met_by_both", "Runs met by both", true),
                new("met_by_first_only", "first only", true),
                new("met_by_second_only", "second only", true),
                new("met_by_neither", "neither", true),
                new("mcnemar_exact_p", "McNemar p", true),
            ]);
        foreach (PairedDifference d in differences)
        {
            table.Add(
            [
                new(RequirementWords.Figure(d.Figure.OnRow), d.Figure.Words),
                new(ComparisonTexts.Place(plan, d.Point)),
                new(d.First is null ? Table.Nothing : ComparisonTexts.Counted(d, ComparedPair.First), Numbers.Exact(d.First)),
                new(d.Second is null ? Table.Nothing : ComparisonTexts.Counted(d, ComparedPair.Second), Numbers.Exact(d.Second)),
                .. Told(d.Difference, d.Interval),
                Number(d.SwapP),
                new(d.Verdict.Text()),
                Whole(d.Met?.Both),
                Whole(d.Met?.OnlyFirst),
                Whole(d.Met?.OnlySecond),
                Whole(d.Met?.Neither),
                Number(d.Met?.ExactP),
            ]);
        }

        return table;
    }

    internal static Table FailurePoints(IEnumerable<FailureDifference> differences)
    {
        var table = new Table(
            "failure_points",
            "Failure points of both",
            [
                new("figure", "Requirement"),
                new("key", "Key"),
                new("held", "Held"),
                new("first", "First", true),
                new("second", "Second", true),
                new("difference", "Difference", true),
                new("difference_low", "from", true),
                new("difference_high", "to", true),
                new("verdict", "The second is"),
            ]);
        foreach (FailureDifference f in differences)
        {
            string held = ComparisonTexts.Held(f.First.Held);
            int? decimals = ComparisonTexts.Decimals(f, f.Interval);
            table.Add(
            [
                new($"{RequirementWords.Bare(f.First.Requirement)} {RequirementWords.Limit(f.First.Requirement)}"),
                new(RequirementWords.Key(f.First.Factor.Key), f.First.Factor.Key.Name),
                new(held.Length == 0 ? Table.Nothing : held, held),
                new(ComparisonTexts.Level(f, f.First), Numbers.Exact(f.First.Level)),
                new(ComparisonTexts.Level(f, f.Second), Numbers.Exact(f.Second.Level)),
                new(f.Bound is null ? Numbers.Told(f.Difference, decimals) : ComparisonTexts.Told(f, f.Interval).Difference, Numbers.Exact(f.Difference)),
                new(Numbers.Told(f.Interval?.Low, decimals), Numbers.Exact(f.Interval?.Low)),
                new(Numbers.Told(f.Interval?.High, decimals), Numbers.Exact(f.Interval?.High)),
                new(ComparisonTexts.Verdict(f), f.Verdict.Text()),
            ]);
        }

        return table;
    }

    internal static Table Runs(Comparison comparison)
    {
        var table = new Table(
            "runs",
            "For each figure the runs in which the two differ most",
            [
                new("figure", "Figure"),
                new("first_run", "Run of the first", true),
                new("second_run", "Run of the second", true),
                new("at", "At"),
                new("seed", "Seed", true),
                new("subject_seed", "Person", true),
                new("first", "First", true),
                new("second", "Second", true),
                new("difference", "Difference", true),
            ]);
        foreach (DifferingRun r in comparison.Runs)
        {
            table.Add(
            [
                new(RequirementWords.Figure(r.Figure.OnRow), r.Figure.Words),
                Whole(comparison.Pair.Sides[ComparedPair.First].OwnRun(r.Run)),
                Whole(comparison.Pair.Sides[ComparedPair.Second].OwnRun(r.Run)),
                new(ComparisonTexts.Place(comparison.Pair.Results.Plan, r.Point)),
                new(Numbers.Unsigned(r.Seed)),
                r.SubjectSeed is ulong s ? new Cell(Numbers.Unsigned(s)) : new Cell(Table.Nothing, ""),
                Number(r.First),
                Number(r.Second),
                Number(r.Difference),
            ]);
        }

        return table;
    }

    private static Cell[] Told(double? difference, Interval? interval)
    {
        int? decimals = difference is double d ? ToldDigits.Decimals(d, interval) : null;
        return [.. new[] { difference, interval?.Low, interval?.High }.Select(v => new Cell(Numbers.Told(v, decimals), Numbers.Exact(v)))];
    }

    private static Cell Number(double? value) => new(Numbers.Short(value), Numbers.Exact(value));

    private static Cell Whole(long? value) => value is long v ? new Cell(Numbers.Whole(v)) : new Cell(Table.Nothing, "");
}
