// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Output;

/// <summary>Prints a comparison.</summary>
internal static class ComparisonTable
{
    private const int MostPoints = 60;

    public static void Print(TextWriter writer, Comparison comparison, Gate? gate)
    {
        StudyPlan plan = comparison.Pair.Results.Plan;
        ComparedSide[] sides = [.. comparison.Pair.Sides];
        writer.WriteLine($"{plan.Title}: {sides[1].Label} ({sides[1].Detector}) against {sides[0].Label} ({sides[0].Detector})");
        writer.WriteLine(FormattableString.Invariant($"{Plural.Of(comparison.Pair.Results.Rows.Count / 2, "run")} of each; no longer answered {comparison.NoLongerAnswered.Count}, newly answered {comparison.NewlyAnswered.Count}"));
        foreach (string note in comparison.Pair.Notes)
        {
            writer.WriteLine(note);
        }

        writer.WriteLine();
        Differences(writer, plan, comparison.Overall);
        if (comparison.FailurePoints.Count > 0)
        {
            writer.WriteLine();
            PlainTables.Print(
                writer,
                ["failure point of", "key", "first>", "second>", "difference>", "95 % interval", "verdict"],
                comparison.FailurePoints.Select(f => (string[])
                [
                    $"{f.First.Requirement.Definition.Key.Key}, {f.First.Requirement.Subject}",
                    f.First.Factor.Key.Name + (f.First.Held.Count == 0 ? "" : $" at {ComparisonTexts.Held(f.First.Held)}"),
                    ComparisonTexts.Level(f, f.First),
                    ComparisonTexts.Level(f, f.Second),
                    ComparisonTexts.Told(f, f.Interval).Difference,
                    ComparisonTexts.Told(f, f.Interval).Interval,
                    ComparisonTexts.Verdict(f),
                ]));
        }

        PairedDifference[] points = [.. comparison.AtPoints.Where(d => comparison.IsGated(d.Figure))];
        if (plan.Points.Count > 1 && points.Length <= MostPoints)
        {
            writer.WriteLine();
            Differences(writer, plan, points);
        }

        RunsThatMeet(writer, plan, [.. comparison.Overall, .. plan.Points.Count > 1 && points.Length <= MostPoints ? points : []]);
        writer.WriteLine();
        writer.WriteLine("difference: second less first on the same runs, of magnitudes for a bias; interval: whole seeds and persons resampled, the same for both; p: swap test.");
        writer.WriteLine("better, worse: the interval excludes 0 and p is at most 0.05 (of a failure point the interval alone); no difference shown does not mean equal.");
        if (gate is not null)
        {
            Judgement(writer, comparison, gate);
        }
    }

    private static void Judgement(TextWriter writer, Comparison comparison, Gate gate)
    {
        writer.WriteLine(gate.Worse.Count == 0
            ? FormattableString.Invariant($"nothing got worse ({Plural.Of(comparison.TestCount, "difference")} judged together at 5 %; a single row above that says worse may be chance)")
            : FormattableString.Invariant($"got worse ({Plural.Of(comparison.TestCount, "difference")} judged together at 5 %):"));
        foreach (string sentence in gate.Worse)
        {
            writer.WriteLine($"  {sentence}");
        }
    }

    private static void RunsThatMeet(TextWriter writer, StudyPlan plan, IEnumerable<PairedDifference> differences)
    {
        PairedDifference[] required = [.. differences.Where(d => d.Met is not null)];
        if (required.Length == 0)
        {
            return;
        }

        writer.WriteLine();
        PlainTables.Print(
            writer,
            ["runs that meet", "limit>", "at", "first>", "second>", "first only>", "second only>"],
            required.Select(d => (string[])
            [
                d.Figure.Words,
                ComparisonTexts.Number(d.Figure.Limit),
                Place(plan, d),
                ComparisonTexts.RunsThatMeet(d, ComparedPair.First),
                ComparisonTexts.RunsThatMeet(d, ComparedPair.Second),
                d.Met!.OnlyFirst.ToString(CultureInfo.InvariantCulture),
                d.Met.OnlySecond.ToString(CultureInfo.InvariantCulture),
            ]));
    }

    private static string Place(StudyPlan plan, PairedDifference difference) => difference.Point is null ? "all" : ComparisonTexts.Place(plan, difference.Point);

    private static void Differences(TextWriter writer, StudyPlan plan, IEnumerable<PairedDifference> differences) => PlainTables.Print(
        writer,
        ["figure", "at", "first>", "second>", "difference>", "95 % interval", "p>", "verdict"],
        differences.Select(d => (string[])
        [
            d.Figure.Words + (d.Figure.Unit.Length == 0 || d.Figure.Name.EndsWith(d.Figure.Unit, StringComparison.Ordinal) ? "" : $" ({d.Figure.Unit})"),
            Place(plan, d),
            ComparisonTexts.Counted(d, ComparedPair.First),
            ComparisonTexts.Counted(d, ComparedPair.Second),
            ComparisonTexts.Told(d.Difference, d.Interval).Difference,
            ComparisonTexts.Told(d.Difference, d.Interval).Interval,
            PlainTables.Fixed(d.SwapP, "0.0000"),
            d.Verdict.Text(),
        ]));
}
