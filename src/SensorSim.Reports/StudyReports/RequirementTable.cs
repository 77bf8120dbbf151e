// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Tables of the requirements: over the whole study, and at each point.</summary>
internal static class RequirementTable
{
    /// <summary>Each requirement of each detector over the whole study.</summary>
    internal static Table Overall(PooledFigures pooled)
    {
        StudyPlan plan = pooled.Results.Plan;
        var table = new Table("requirements", "Requirements over the whole study", [
            new Column("detector", "detector"),
            new Column("requirement", "requirement"),
            new Column("channel", "channel"),
            new Column("limit", "limit", true),
            new Column("points", "points", true),
            new Column("points_met", "of them met", true),
            new Column("best_figure", "best figure at a point", true),
            new Column("worst_figure", "worst figure at a point", true),
            new Column("pooled_figure", "all runs pooled", true),
            new Column("runs", "runs", true),
            new Column("runs_met", "runs that meet it", true),
        ]);
        for (int detector = 0; detector < plan.Detectors.Count; detector++)
        {
            for (int r = 0; r < pooled.Requirements.Count; r++)
            {
                table.Add(Row(pooled, r, detector));
            }
        }

        return table;
    }

    /// <summary>Pooled figures of every point.</summary>
    internal static Table Points(PooledFigures pooled)
    {
        StudyPlan plan = pooled.Results.Plan;
        var table = new Table("points", "Every point", [
            new Column("point", "point", true),
            .. plan.Factors.Select(f => new Column(f.Key.Name, RequirementWords.Key(f.Key), f.IsNumber)),
            new Column("detector", "detector"),
            new Column("runs", "runs", true),
            .. pooled.Requirements.SelectMany(r => new[]
            {
                new Column($"{r.Channel.Text()}_{r.Definition.Key.Key}", $"{RequirementWords.Bare(r)} {RequirementWords.Limit(r)}", true),
                new Column($"{r.Channel.Text()}_{r.Definition.Key.Key}_met", "met"),
            }),
        ]);
        foreach (StudyPoint point in plan.Points)
        {
            for (int detector = 0; detector < plan.Detectors.Count; detector++)
            {
                if (pooled.RowsAt(point.Index, detector).Count == 0)
                {
                    continue;
                }

                var row = new List<Cell> { new(Numbers.Whole(point.Index)) };
                row.AddRange(point.Values.Select(v => new Cell(Numbers.Level(v), Numbers.ExactLevel(v))));
                row.Add(new Cell(plan.Detectors[detector].Label));
                row.Add(new Cell(Numbers.Whole(pooled.RowsAt(point.Index, detector).Count)));
                for (int r = 0; r < pooled.Requirements.Count; r++)
                {
                    PooledFigure figure = pooled.At(r, point.Index, detector);
                    row.Add(new Cell(Numbers.Short(figure.Figure), Numbers.Exact(figure.Figure)));
                    row.Add(new Cell(figure.IsMet ? "yes" : "no"));
                }

                table.Add(row);
            }
        }

        return table;
    }

    private static List<Cell> Row(PooledFigures pooled, int index, int detector)
    {
        StudyPlan plan = pooled.Results.Plan;
        RequirementOnRow requirement = pooled.Requirements[index];
        PooledFigure[] made = [.. plan.Points.Select(p => pooled.At(index, p.Index, detector)).Where(f => f.RunCount > 0)];
        double[] ranked = [.. made.Where(f => f.Figure is not null).Select(f => f.Figure!.Value).OrderBy(f => requirement.IsLeast ? -f : Math.Abs(f))];
        PooledFigure overall = pooled.Overall(index, detector);
        return
        [
            new Cell(plan.Detectors[detector].Label),
            new Cell(requirement.Definition.Key.Key),
            new Cell(requirement.Channel.Text()),
            Number(requirement.Limit),
            new Cell(Numbers.Whole(made.Length)),
            new Cell(Numbers.Whole(made.Count(f => f.IsMet))),
            Number(ranked.Length == 0 ? null : ranked[0]),
            Number(ranked.Length == 0 ? null : ranked[^1]),
            Number(overall.Figure),
            new Cell(Numbers.Whole(overall.RunCount)),
            new Cell(Numbers.Whole(overall.RunsThatMeet)),
        ];
    }

    private static Cell Number(double? value) => new(Numbers.Short(value), Numbers.Exact(value));
}
