// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Reports.StudyReports;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;

namespace SensorSim.Reports.Comparisons;

/// <summary>The figures of a comparison: all differences, the curves of both, and the difference over the levels.</summary>
internal static class ComparisonFigures
{
    internal static IReadOnlyList<StudyFigure> Of(Comparison comparison)
    {
        StudyPlan plan = comparison.Pair.Results.Plan;
        var pooled = new PooledFigures(comparison.Pair.Results);
        var layout = new PointLayout(plan);
        IReadOnlyList<FailurePoint> points = [.. comparison.FailurePoints.SelectMany(f => new[] { f.First, f.Second })];
        var bars = new DifferenceChart($"{plan.Title} — second less first, all points", comparison.Overall) { Title = plan.Title };
        return
        [
            new StudyFigure(
                "overall_1",
                bars.Bytes,
                ["Difference of each figure pooled over all points, with its 95 % interval; each line has a scale of its own, 0 in the middle. To the right of 0 the second is better, whatever the figure."]),
            .. LevelFigures.Of(pooled, layout, points),
            .. OverLevels(comparison, layout),
        ];
    }

    private static IEnumerable<StudyFigure> OverLevels(Comparison comparison, PointLayout layout)
    {
        StudyPlan plan = comparison.Pair.Results.Plan;
        int number = 0;
        foreach ((Factor factor, string held, (double Level, int Point)[] levels) in Groups(comparison, layout).Take(LevelFigures.MostFigures))
        {
            LevelPanel[] panels =
            [
                .. from figure in comparison.Figures
                   where comparison.IsGated(figure)
                   let panel = Panel(comparison, figure, factor, levels)
                   where panel.Series[0].Levels.Any(l => l.Figure is not null)
                   select panel,
            ];
            if (panels.Length > 0)
            {
                number++;
                var chart = new LevelChart($"{plan.Title} — second less first{(held.Length == 0 ? "" : $", {held}")}", [], panels) { Title = plan.Title };
                yield return new StudyFigure(
                    FormattableString.Invariant($"difference_{number}"),
                    chart.Bytes,
                    ["Difference at each level with its 95 % interval: whole seeds and persons resampled, the same for both. Dashed: no difference. Of many levels a few look different by chance."]);
            }
        }
    }

    private static LevelPanel Panel(Comparison comparison, ComparedFigure figure, Factor factor, (double Level, int Point)[] levels)
    {
        Dictionary<int, PairedDifference> at = comparison.AtPoints.Where(d => d.Figure == figure).ToDictionary(d => d.Point!.Value);
        return new LevelPanel
        {
            Title = $"difference of {RequirementWords.Figure(figure.OnRow)} ({(figure.OnRow.IsLeast ? "above" : "below")} 0: better)",
            XTitle = RequirementWords.Key(factor.Key),
            YTitle = $"second less first{(figure.Unit.Length == 0 ? "" : $" ({figure.Unit})")}",
            IsInRatios = factor.IsInRatios,
            Limits = [0],
            Series =
            [
                new LevelSeries
                {
                    Detector = ComparedPair.Second,
                    Levels = [.. levels.Where(l => at.ContainsKey(l.Point)).Select(l => (l.Level, at[l.Point].Difference, at[l.Point].Interval))],
                },
            ],
        };
    }

    // Where failure points were looked for, their levels; else the levels of the only key.
    private static (Factor Factor, string Held, (double Level, int Point)[] Levels)[] Groups(Comparison comparison, PointLayout layout)
    {
        var found = comparison.FailurePoints
            .Select(f => (f.First.Factor, Held: RequirementWords.Held(f.First.Held), Levels: f.First.Levels.Select(l => (l.Level, l.Point)).ToArray()))
            .DistinctBy(g => g.Factor.Key.Name + "\n" + g.Held).ToArray();
        if (found.Length > 0 || layout.Varied.Count != 1 || !layout.Plan.Factors[layout.Varied[0]].IsNumber)
        {
            return found;
        }

        int only = layout.Varied[0];
        return [(layout.Plan.Factors[only], "", [.. layout.Plan.Points.Select(p => (Level: (double)p.Values[only], p.Index)).OrderBy(p => p.Level)])];
    }
}
