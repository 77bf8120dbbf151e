// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>Counts of events, point by point, with a gross and an average row.</summary>
/// <remarks>
/// A record is a run. Gross: counts of the records are added, then the ratio is taken, so each beat weighs the same; average: the mean of the
/// records' ratios, so each record weighs the same. Source: ANSI/AAMI EC57, from memory.
/// </remarks>
internal static class RecordTable
{
    /// <summary>How the two kinds of rows are defined.</summary>
    internal const string Definition =
        "Gross figures add the counts of all runs and then take the ratio: each event weighs the same. Average figures are the mean of the runs' own ratios: each run weighs the same; runs in which a ratio is undefined are left out.";

    internal static Table Of(PooledFigures pooled)
    {
        StudyPlan plan = pooled.Results.Plan;
        var table = new Table("records", "Events counted, point by point", [
            new Column("detector", "detector"),
            new Column("channel", "channel"),
            new Column("kind", "kind"),
            new Column("point", "point"),
            .. plan.Factors.Select(f => new Column(f.Key.Name, RequirementWords.Key(f.Key), f.IsNumber)),
            new Column("runs", "runs", true),
            new Column("matched", "matched", true),
            new Column("missed", "missed", true),
            new Column("extra", "extra", true),
            new Column("sensitivity_gross", "sensitivity, gross", true),
            new Column("sensitivity_average", "average", true),
            new Column("positive_predictivity_gross", "positive predictivity, gross", true),
            new Column("positive_predictivity_average", "average", true),
        ]);
        (ChannelName Channel, MarkKind Kind)[] kinds = [.. pooled.Results.Rows.SelectMany(r => r.Events).Select(e => (e.Channel, e.Kind)).Distinct().Order()];
        for (int detector = 0; detector < plan.Detectors.Count; detector++)
        {
            foreach ((ChannelName channel, MarkKind kind) in kinds)
            {
                Add(table, pooled, detector, channel, kind);
            }
        }

        return table;
    }

    private static void Add(Table table, PooledFigures pooled, int detector, ChannelName channel, MarkKind kind)
    {
        StudyPlan plan = pooled.Results.Plan;
        Cell[] head = [new(plan.Detectors[detector].Label), new(channel.Text()), new(kind.Text())];
        var all = new List<DetectionCounts>();
        foreach (StudyPoint point in plan.Points)
        {
            DetectionCounts[] counts = [.. pooled.RowsAt(point.Index, detector).Select(r => r.Find(channel, kind)?.Counts).OfType<DetectionCounts>()];
            if (counts.Length == 0)
            {
                continue;
            }

            all.AddRange(counts);
            table.Add([.. head, new Cell(Numbers.Whole(point.Index)), .. point.Values.Select(v => new Cell(Numbers.Level(v), Numbers.ExactLevel(v))), .. Figures(counts)]);
        }

        if (all.Count > 0)
        {
            table.Add([.. head, new Cell("all"), .. plan.Factors.Select(_ => new Cell("", "")), .. Figures(all)]);
        }
    }

    private static IEnumerable<Cell> Figures(IReadOnlyList<DetectionCounts> counts)
    {
        DetectionCounts gross = DetectionCounts.Gross(counts);
        foreach (long count in new[] { counts.Count, gross.Matched, gross.Missed, gross.Extra })
        {
            yield return new Cell(Numbers.Whole(count));
        }

        foreach (double? figure in new[]
        {
            gross.Sensitivity,
            DetectionCounts.Average(counts, c => c.Sensitivity),
            gross.PositivePredictivity,
            DetectionCounts.Average(counts, c => c.PositivePredictivity),
        })
        {
            yield return new Cell(Numbers.Short(figure), Numbers.Exact(figure));
        }
    }
}
