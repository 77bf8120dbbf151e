// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Each key alone against a figure, where points lie anywhere or have words.</summary>
internal static class ScatterFigures
{
    /// <summary>One figure for each requirement, a panel for each key.</summary>
    internal static IReadOnlyList<StudyFigure> Of(PooledFigures pooled, PointLayout layout)
    {
        StudyPlan plan = pooled.Results.Plan;
        bool isWordsAlone = layout.Kind == LayoutKind.Grid && layout.Varied.Count == 1 && !plan.Factors[layout.Varied[0]].IsNumber;
        if (layout.Kind != LayoutKind.Scattered && !isWordsAlone)
        {
            return [];
        }

        string[] labels = [.. plan.Detectors.Select(d => d.Label)];
        var figures = new List<StudyFigure>();
        for (int r = 0; r < pooled.Requirements.Count; r++)
        {
            RequirementOnRow requirement = pooled.Requirements[r];
            int index = r;
            ScatterPanel[] panels = [.. layout.Varied.Select(f => Panel(pooled, layout, index, f))];
            double[] limits = RequirementWords.Limits(requirement);
            limits = panels.Any(p => p.Signs.Any(s => s.Figure < 0)) ? limits : limits[..1];
            string title = RequirementWords.Required(requirement);
            var chart = new ScatterChart(title, labels, RequirementWords.Axis(requirement), requirement.IsLeast, limits, panels) { Title = title };
            figures.Add(new StudyFigure(
                FormattableString.Invariant($"scatter_{figures.Count + 1}"),
                chart.Bytes,
                [$"Each sign: one point of the study, its figure pooled over seeds and subjects, over the value of one key; the other keys differ from sign to sign. Dashed: requirement. {LevelFigures.OnStretchedScales}"]));
        }

        return figures;
    }

    private static ScatterPanel Panel(PooledFigures pooled, PointLayout layout, int requirement, int factor)
    {
        StudyPlan plan = pooled.Results.Plan;
        Factor of = plan.Factors[factor];
        var signs = new List<(int Detector, double X, double Figure)>();
        for (int detector = 0; detector < plan.Detectors.Count; detector++)
        {
            foreach (StudyPoint point in plan.Points)
            {
                double x = of.IsNumber ? (double)point.Values[factor] : layout.Place(point, factor);
                signs.Add((detector, x, pooled.At(requirement, point.Index, detector).Figure ?? double.NaN));
            }
        }

        return new ScatterPanel
        {
            XTitle = RequirementWords.Key(of.Key),
            IsInRatios = of.IsInRatios,
            Words = of.IsNumber ? null : [.. layout.Levels[factor].Select(Numbers.Level)],
            Signs = signs,
        };
    }
}
