// SPDX-License-Identifier: MIT
using SensorSim.Reports.Charts;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Curves over the levels of a key, with failure points.</summary>
internal static class LevelFigures
{
    /// <summary>Most figures of one study; a grid of two keys with many levels would give dozens.</summary>
    internal const int MostFigures = 6;

    /// <summary>What a caption says of scales of shares.</summary>
    internal const string OnStretchedScales =
        "Where a limit is near 1 the scale of shares is stretched near 0 and 1 (even steps of log odds: 0.9, 0.99 and 0.999 are about equally far apart), so that the room about the limit is seen.";

    /// <summary>One figure for each key and combination of the others' values, a panel for each requirement.</summary>
    internal static IReadOnlyList<StudyFigure> Of(PooledFigures pooled, PointLayout layout, IReadOnlyList<FailurePoint> points)
    {
        StudyPlan plan = pooled.Results.Plan;
        string[] labels = [.. plan.Detectors.Select(d => d.Label)];
        if (points.Count == 0)
        {
            return layout.Kind == LayoutKind.Grid && layout.Varied.Count == 1 && plan.Factors[layout.Varied[0]].IsNumber && pooled.Requirements.Count > 0
                ? [Plain(pooled, layout, labels)]
                : [];
        }

        var figures = new List<StudyFigure>();
        foreach (IGrouping<string, FailurePoint> group in Groups(points).Take(MostFigures))
        {
            FailurePoint first = group.First();
            string held = RequirementWords.Held(first.Held);
            LevelPanel[] panels = [.. group.GroupBy(p => p.Requirement).Select(g => Panel(g, plan.FailurePoint.PassFraction))];
            var chart = new LevelChart($"{plan.Title}{(held.Length == 0 ? "" : $" — {held}")}", labels, panels) { Title = plan.Title };
            figures.Add(new StudyFigure(FormattableString.Invariant($"curves_{figures.Count + 1}"), chart.Bytes, Captions(group)));
        }

        return figures;
    }

    /// <summary>How many figures a study would have.</summary>
    internal static int Count(IReadOnlyList<FailurePoint> points) => Groups(points).Count();

    private static IEnumerable<IGrouping<string, FailurePoint>> Groups(IReadOnlyList<FailurePoint> points) =>
        points.GroupBy(p => p.Factor.Key.Name + "\n" + RequirementWords.Held(p.Held), StringComparer.Ordinal);

    private static LevelPanel Panel(IGrouping<RequirementOnRow, FailurePoint> group, double? share)
    {
        FailurePoint first = group.First();
        return new LevelPanel
        {
            Title = Title(group.Key, share),
            XTitle = RequirementWords.Key(first.Factor.Key),
            YTitle = share is null ? RequirementWords.Axis(group.Key) : "share of runs that meet the requirement",
            IsInRatios = first.Factor.IsInRatios,
            IsShare = share is not null || group.Key.IsLeast,
            Limits = share is double s ? [s] : LimitsOf(group),
            Series = [.. group.OrderBy(p => p.Detector).Select(Series)],
        };
    }

    private static LevelSeries Series(FailurePoint point) => new()
    {
        Detector = point.Detector,
        Levels = [.. point.Levels.Select(l => (l.Level, l.Figure, l.Interval))],
        Curve = CurveOf(point),
        FailureLevel = point.Level,
        FailureInterval = point.Interval,
    };

    // Of a figure with a sign the curve is that of its magnitude: it goes on the side on which the figures lie. Where they lie on both there is no one curve.
    internal static IReadOnlyList<(double Level, double Figure)> CurveOf(FailurePoint point) =>
        !point.Levels.Any(l => l.Figure < 0) ? point.Curve
        : point.Levels.Any(l => l.Figure > 0) ? []
        : [.. point.Curve.Select(c => (c.Level, -c.Figure))];

    // The mirrored limit of a figure with a sign is of use only where the figure gets below 0.
    private static double[] LimitsOf(IGrouping<RequirementOnRow, FailurePoint> group)
    {
        double[] limits = RequirementWords.Limits(group.Key);
        return group.Any(p => p.Levels.Any(l => l.Figure < 0)) ? limits : limits[..1];
    }

    private static string[] Captions(IGrouping<string, FailurePoint> group) =>
    [
        "Signs: what was reached at a level, bars: 95 % intervals by resampling whole seeds and subjects; line: the curve that the failure point is read from, fitted or, where no fitted one is believed, interpolated; where figures drop between two levels it is a step in the middle of them; straight lines where there is no curve; dashed line across: requirement. Under the curves: failure point of each detector with its 95 % interval; an arrow says that the interval goes on beyond the levels. " + OnStretchedScales,
        .. group.Select(p => p.Definition).Distinct(StringComparer.Ordinal),
    ];

    private static StudyFigure Plain(PooledFigures pooled, PointLayout layout, string[] labels)
    {
        StudyPlan plan = pooled.Results.Plan;
        int factor = layout.Varied[0];
        var panels = new List<LevelPanel>();
        for (int r = 0; r < pooled.Requirements.Count; r++)
        {
            RequirementOnRow requirement = pooled.Requirements[r];
            LevelSeries[] series =
            [
                .. Enumerable.Range(0, labels.Length).Select(detector => new LevelSeries
                {
                    Detector = detector,
                    Levels =
                    [
                        .. plan.Points.OrderBy(p => (double)p.Values[factor])
                            .Select(p => ((double)p.Values[factor], pooled.At(r, p.Index, detector).Figure, (Interval?)null)),
                    ],
                }),
            ];
            double[] limits = RequirementWords.Limits(requirement);
            panels.Add(new LevelPanel
            {
                Title = RequirementWords.Required(requirement),
                XTitle = RequirementWords.Key(plan.Factors[factor].Key),
                YTitle = RequirementWords.Axis(requirement),
                IsInRatios = plan.Factors[factor].IsInRatios,
                IsShare = requirement.IsLeast,
                Limits = series.Any(s => s.Levels.Any(l => l.Figure < 0)) ? limits : limits[..1],
                Series = series,
            });
        }

        var chart = new LevelChart(plan.Title, labels, panels) { Title = plan.Title };
        return new StudyFigure("curves_1", chart.Bytes, ["Figures pooled over seeds and subjects at each level, joined by straight lines; dashed: requirement. No failure point was looked for, so there are no intervals."]);
    }

    private static string Title(RequirementOnRow requirement, double? share) => share is null
        ? RequirementWords.Required(requirement)
        : $"share of runs with {RequirementWords.Bare(requirement)} {RequirementWords.Limit(requirement)}";
}
