// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Maps over two keys of a grid.</summary>
internal static class HeatFigures
{
    /// <summary>Most maps of one study.</summary>
    internal const int MostFigures = 12;

    /// <summary>One figure for each requirement and combination of the other keys' values, a panel for each detector.</summary>
    internal static IReadOnlyList<StudyFigure> Of(PooledFigures pooled, PointLayout layout)
    {
        StudyPlan plan = pooled.Results.Plan;
        if (layout.Kind != LayoutKind.Grid || layout.Varied.Count < 2)
        {
            return [];
        }

        // Numbers make better axes than words; of the two, the one with more levels goes across.
        int[] order = [.. layout.Varied.OrderByDescending(f => plan.Factors[f].IsNumber)];
        int across = layout.Levels[order[0]].Count >= layout.Levels[order[1]].Count ? order[0] : order[1];
        int up = across == order[0] ? order[1] : order[0];
        int[] others = [.. layout.Varied.Where(f => f != across && f != up)];
        var figures = new List<StudyFigure>();
        foreach (IGrouping<string, StudyPoint> group in plan.Points.GroupBy(p => HeldOf(plan, p, others), StringComparer.Ordinal))
        {
            for (int r = 0; r < pooled.Requirements.Count && figures.Count < MostFigures; r++)
            {
                RequirementOnRow requirement = pooled.Requirements[r];
                int index = r;
                HeatPanel[] panels = [.. plan.Detectors.Select((d, detector) => Panel(pooled, layout, index, detector, across, up, group))];
                string title = $"{RequirementWords.Required(requirement)}{(group.Key.Length == 0 ? "" : $" — {group.Key}")}";
                var chart = new HeatChart(title, panels) { Title = title };
                figures.Add(new StudyFigure(FormattableString.Invariant($"map_{figures.Count + 1}"), chart.Bytes, Captions));
            }
        }

        return figures;
    }

    private static string[] Captions =>
        ["Each cell: the figure pooled over seeds and subjects. The bold line parts cells that meet the requirement from those that do not."];

    private static string HeldOf(StudyPlan plan, StudyPoint point, int[] factors) =>
        RequirementWords.Held(factors.Select(f => (plan.Factors[f], point.Values[f])));

    private static HeatPanel Panel(
        PooledFigures pooled, PointLayout layout, int requirement, int detector, int across, int up, IEnumerable<StudyPoint> points)
    {
        StudyPlan plan = pooled.Results.Plan;
        var figures = new double?[layout.Levels[up].Count, layout.Levels[across].Count];
        var isMet = new bool[layout.Levels[up].Count, layout.Levels[across].Count];
        foreach (StudyPoint point in points)
        {
            PooledFigure figure = pooled.At(requirement, point.Index, detector);
            (int row, int column) = (layout.Place(point, up), layout.Place(point, across));
            figures[row, column] = figure.Figure;
            isMet[row, column] = figure.IsMet;
        }

        return new HeatPanel
        {
            Title = plan.Detectors[detector].Label,
            XTitle = RequirementWords.Key(plan.Factors[across].Key),
            YTitle = RequirementWords.Key(plan.Factors[up].Key),
            XLevels = [.. layout.Levels[across].Select(Numbers.Level)],
            YLevels = [.. layout.Levels[up].Select(Numbers.Level)],
            Figures = figures,
            IsMet = isMet,
            Text = Numbers.InCell,
        };
    }
}
