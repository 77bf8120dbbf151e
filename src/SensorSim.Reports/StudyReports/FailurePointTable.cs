// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Signals.Streams;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

namespace SensorSim.Reports.StudyReports;

/// <summary>Tables of failure points and of what was reached at their levels.</summary>
internal static class FailurePointTable
{
    /// <summary>The points, with the number of the sentence that defines each.</summary>
    internal static Table Points(StudyPlan plan, IReadOnlyList<FailurePoint> points, IReadOnlyList<string> definitions)
    {
        var table = new Table("failure_points", "Failure points", [
            new Column("detector", "detector"),
            new Column("requirement", "requirement"),
            new Column("channel", "channel"),
            new Column("limit", "limit", true),
            new Column("key", "key"),
            new Column("held", "other keys"),
            new Column("state", "result"),
            new Column("level", "failure point", true),
            new Column("level_low", "95 % from", true),
            new Column("level_high", "to", true),
            new Column("unit", "unit"),
            new Column("definition", "definition"),
            new Column("warnings", "warnings"),
        ]);
        Dictionary<string, int> numbers = definitions.Select((d, i) => (d, i)).ToDictionary(d => d.d, d => d.i + 1, StringComparer.Ordinal);
        foreach (FailurePoint point in points)
        {
            string held = RequirementWords.Held(point.Held);
            int? decimals = point.Level is double at ? ToldDigits.Decimals(at, point.Interval) : null;
            table.Add([
                new Cell(plan.Detectors[point.Detector].Label),
                new Cell(point.Requirement.Definition.Key.Key),
                new Cell(point.Requirement.Channel.Text()),
                Number(point.Requirement.Limit),
                new Cell(point.Factor.Key.Name),
                new Cell(held.Length == 0 ? Numbers.None : held, held),
                new Cell(State(point.State)),
                Told(point.Level, decimals),
                Told(point.Interval?.Low, decimals),
                Told(point.Interval?.High, decimals),
                new Cell(point.Factor.Key.Unit),
                new Cell(Numbers.Whole(numbers[point.Definition]), point.Definition),
                new Cell("", string.Join(' ', point.Warnings)),
            ]);
        }

        return table;
    }

    /// <summary>The warnings, each with what it is about.</summary>
    internal static IEnumerable<string> Warnings(StudyPlan plan, IReadOnlyList<FailurePoint> points) => points.SelectMany(p => p.Warnings.Select(w =>
        $"{plan.Detectors[p.Detector].Label}, {RequirementWords.Figure(p.Requirement)}{(p.Held.Count == 0 ? "" : $" at {RequirementWords.Held(p.Held)}")}: {w}"));

    /// <summary>What was reached at each level of each failure point.</summary>
    internal static Table Levels(StudyPlan plan, IReadOnlyList<FailurePoint> points)
    {
        var table = new Table("levels", "What was reached at each level", [
            new Column("detector", "detector"),
            new Column("requirement", "requirement"),
            new Column("channel", "channel"),
            new Column("key", "key"),
            new Column("held", "other keys"),
            new Column("level", "level", true),
            new Column("figure", "figure", true),
            new Column("figure_low", "95 % from", true),
            new Column("figure_high", "to", true),
            new Column("runs", "runs", true),
            new Column("events", "events", true),
        ]);
        foreach (FailurePoint point in points)
        {
            string held = RequirementWords.Held(point.Held);
            foreach (LevelFigure level in point.Levels)
            {
                table.Add([
                    new Cell(plan.Detectors[point.Detector].Label),
                    new Cell(point.Requirement.Definition.Key.Key),
                    new Cell(point.Requirement.Channel.Text()),
                    new Cell(point.Factor.Key.Name),
                    new Cell(held.Length == 0 ? Numbers.None : held, held),
                    Number(level.Level),
                    Number(level.Figure),
                    Number(level.Interval?.Low),
                    Number(level.Interval?.High),
                    new Cell(Numbers.Whole(level.RunCount)),
                    new Cell(Numbers.Whole(level.EventCount)),
                ]);
            }
        }

        return table;
    }

    /// <summary>A result in words.</summary>
    internal static string State(FailurePointState state) => state switch
    {
        FailurePointState.Found => "found",
        FailurePointState.MetEverywhere => "met at every level",
        FailurePointState.MetNowhere => "met at no level",
        _ => "no curve",
    };

    private static Cell Told(double? value, int? decimals) => new(Numbers.Told(value, decimals), Numbers.Exact(value));

    private static Cell Number(double? value) => new(Numbers.Short(value), Numbers.Exact(value));
}
