// SPDX-License-Identifier: MIT
using SensorSim.Files.Tables;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Comparisons;

/// <summary>Every difference of a comparison as one table: pooled over all points, at each point, of each failure point.</summary>
public static class DifferenceTable
{
    /// <summary>The table.</summary>
    /// <param name="comparison">The comparison.</param>
    public static ColumnTable Of(Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        StudyPlan plan = comparison.Pair.Results.Plan;
        PairedDifference[] paired = [.. comparison.Overall, .. comparison.AtPoints];
        IReadOnlyList<FailureDifference> failures = comparison.FailurePoints;
        PairedDifference? Paired(int i) => i < paired.Length ? paired[i] : null;
        FailureDifference? Failure(int i) => i < paired.Length ? null : failures[i - paired.Length];
        ComparedFigure Figure(int i) => Paired(i)?.Figure ?? new ComparedFigure(Failure(i)!.First.Requirement.Definition, Failure(i)!.First.Requirement.Channel, Failure(i)!.First.Requirement.Limit);
        return new ColumnTable(
            paired.Length + failures.Count,
            [
                new TextColumn("scope", i => Paired(i) is { } p ? p.Point is null ? "all_points" : "point" : "failure_point"),
                new TextColumn("figure", i => Figure(i).Name),
                new TextColumn("channel", i => Figure(i).Channel.Text()),
                new TextColumn("kind", i => Figure(i).Definition.Kind.Text()),
                new RealColumn("limit", "", i => Figure(i).Limit),
                new TextColumn("key", i => Failure(i)?.First.Factor.Key.Name ?? ""),
                new TextColumn("unit", i => Failure(i)?.First.Factor.Key.Unit ?? Figure(i).Unit),
                new WholeColumn("point", "", i => Paired(i)?.Point),
                new TextColumn("values", i => Paired(i) is { } p ? p.Point is null ? "" : ComparisonTexts.Place(plan, p.Point) : ComparisonTexts.Held(Failure(i)!.First.Held)),
                new RealColumn("first", "", i => Paired(i)?.First ?? Failure(i)?.First.Level),
                new RealColumn("second", "", i => Paired(i)?.Second ?? Failure(i)?.Second.Level),
                new TextColumn("first_state", i => Failure(i) is { } f ? FailurePointRow.Word(f.First.State) : ""),
                new TextColumn("second_state", i => Failure(i) is { } f ? FailurePointRow.Word(f.Second.State) : ""),
                new RealColumn("difference", "", i => Paired(i)?.Difference ?? Failure(i)?.Difference),
                new RealColumn("difference_low", "", i => FailurePointTable.Finite((Paired(i)?.Interval ?? Failure(i)?.Interval)?.Low)),
                new RealColumn("difference_high", "", i => FailurePointTable.Finite((Paired(i)?.Interval ?? Failure(i)?.Interval)?.High)),
                new RealColumn("swap_p", "", i => Paired(i)?.SwapP),
                new TextColumn("verdict", i => (Paired(i)?.Verdict ?? Failure(i)!.Verdict).Text()),
                new WholeColumn("run_count", "", i => Paired(i)?.RunCount),
                new WholeColumn("first_event_count", "", i => Paired(i)?.FirstEventCount),
                new WholeColumn("second_event_count", "", i => Paired(i)?.SecondEventCount),
                new WholeColumn("met_by_both", "", i => Paired(i)?.Met?.Both),
                new WholeColumn("met_by_first_only", "", i => Paired(i)?.Met?.OnlyFirst),
                new WholeColumn("met_by_second_only", "", i => Paired(i)?.Met?.OnlySecond),
                new WholeColumn("met_by_neither", "", i => Paired(i)?.Met?.Neither),
                new RealColumn("mcnemar_exact_p", "", i => Paired(i)?.Met?.ExactP),
            ]);
    }
}
