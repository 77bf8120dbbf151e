// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Effect of each key alone, where all others have their base values.</summary>
internal static class EffectFigures
{
    /// <summary>One figure for each requirement, a panel for each detector.</summary>
    internal static IReadOnlyList<StudyFigure> Of(PooledFigures pooled, PointLayout layout)
    {
        if (layout.Kind != LayoutKind.EachAlone)
        {
            return [];
        }

        StudyPlan plan = pooled.Results.Plan;
        var figures = new List<StudyFigure>();
        for (int r = 0; r < pooled.Requirements.Count; r++)
        {
            RequirementOnRow requirement = pooled.Requirements[r];
            int index = r;
            EffectPanel[] panels = [.. plan.Detectors.Select((d, detector) => Panel(pooled, layout, index, detector, d.Label))];
            string title = $"Effect of each key alone on {RequirementWords.Required(requirement)}";
            var chart = new EffectChart(title, panels) { Title = title };
            figures.Add(new StudyFigure(
                FormattableString.Invariant($"effects_{figures.Count + 1}"),
                chart.Bytes,
                [
                    $"A bar goes from the lowest to the highest figure (pooled over seeds and subjects) that the values of one key give while all other keys keep their base values; upright strokes: each value; beside the ends: the values that give them. The key with the longest bar stands at the top. How keys act together this does not show. {LevelFigures.OnStretchedScales}",
                    $"Base values: {RequirementWords.Held(layout.Varied.Select(f => (plan.Factors[f], plan.Points[layout.Base].Values[f])))}.",
                ]));
        }

        return figures;
    }

    private static EffectPanel Panel(PooledFigures pooled, PointLayout layout, int requirement, int detector, string label)
    {
        StudyPlan plan = pooled.Results.Plan;
        StudyPoint atBase = plan.Points[layout.Base];
        double? baseFigure = pooled.At(requirement, atBase.Index, detector).Figure;
        EffectBar[] bars =
        [
            .. layout.Varied.Select(f => new EffectBar(
                RequirementWords.Key(plan.Factors[f].Key),
                [
                    .. plan.Points.Where(p => p.Index == atBase.Index || !p.Values[f].Equals(atBase.Values[f]))
                        .Select(p => (Numbers.Level(p.Values[f]), pooled.At(requirement, p.Index, detector).Figure ?? double.NaN)),
                ])),
        ];
        double[] limits = RequirementWords.Limits(pooled.Requirements[requirement]);
        bool hasNegative = bars.Any(b => b.Values.Any(v => v.Figure < 0));
        return new EffectPanel(label, pooled.Requirements[requirement].IsLeast, baseFigure, hasNegative ? limits : limits[..1], [.. bars.OrderByDescending(Reach)])
        {
            XTitle = RequirementWords.Axis(pooled.Requirements[requirement]),
        };
    }

    private static double Reach(EffectBar bar)
    {
        double[] known = [.. bar.Values.Select(v => v.Figure).Where(double.IsFinite)];
        return known.Length == 0 ? -1 : known.Max() - known.Min();
    }
}
