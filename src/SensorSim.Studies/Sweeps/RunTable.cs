// SPDX-License-Identifier: MIT
using SensorSim.Files.Tables;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>The rows of a study as one wide table: a row for each run, columns for each channel and kind that occurs in any of them.</summary>
public static class RunTable
{
    private const string Nanoseconds = "ns";
    private const string Milliseconds = "ms";

    /// <summary>The table.</summary>
    /// <param name="results">Plan and rows.</param>
    public static ColumnTable Of(StudyResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        StudyPlan plan = results.Plan;
        IReadOnlyList<RunRow> rows = results.Rows;
        RunKey[] keys = [.. rows.Select(r => plan.KeyOf(r.Run))];
        List<TableColumn> columns =
        [
            new WholeColumn("run", "", i => rows[i].Run),
            new WholeColumn("point", "", i => keys[i].Point),
            new WholeColumn("seed", "", i => (long)plan.Seeds[keys[i].Seed]),
            new WholeColumn("subject_seed", "", i => plan.SubjectSeeds.Count == 0 ? (long?)plan.Scenario.Subject?.Seed : (long)plan.SubjectSeeds[keys[i].Subject]),
            new TextColumn("detector", i => plan.Detectors[keys[i].Detector].Label),
            .. plan.Factors.Select((f, place) => Varied(f, i => plan.Points[keys[i].Point].Values[place])),
            new TextColumn("verdict", i => SummaryJson.Word(rows[i].Verdict)),
            new TextColumn("verdict_reason", i => rows[i].VerdictReason),
            new WholeColumn("sample_count", "", i => rows[i].SampleCount),
            new WholeColumn("mark_count", "", i => rows[i].MarkCount),
            new WholeColumn("scored_ns", Nanoseconds, i => rows[i].ScoredNs),
        ];
        foreach ((ChannelName channel, MarkKind kind) in Sorted(rows.SelectMany(r => r.Events.Select(e => (e.Channel, e.Kind)))))
        {
            columns.AddRange(Events($"{channel.Text()}_{kind.Text()}", [.. rows.Select(r => r.Find(channel, kind))]));
        }

        foreach ((ChannelName channel, MarkKind kind) in Sorted(rows.SelectMany(r => r.Readings.Select(e => (e.Channel, e.Kind)))))
        {
            columns.AddRange(Readings($"{channel.Text()}_{kind.Text()}", kind.Info().ValueUnit, [.. rows.Select(r => r.FindReading(channel, kind))]));
        }

        return new ColumnTable(rows.Count, columns);
    }

    /// <summary>Name of the column of a varied key: its full name, the point between section and key as an underline.</summary>
    /// <param name="factor">The key.</param>
    public static string NameOf(Factor factor)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return factor.Key.Name.Replace('.', '_');
    }

    private static TableColumn Varied(Factor factor, Func<int, object> at) => factor.IsNumber
        ? new RealColumn(NameOf(factor), factor.Key.Unit, i => (double)at(i))
        : new TextColumn(NameOf(factor), i => (string)at(i));

    private static IEnumerable<(ChannelName Channel, MarkKind Kind)> Sorted(IEnumerable<(ChannelName Channel, MarkKind Kind)> pairs) =>
        pairs.Distinct().OrderBy(p => p.Channel).ThenBy(p => p.Kind);

    private static IEnumerable<TableColumn> Events(string name, EventRow?[] rows) =>
    [
        new WholeColumn($"{name}_matched", "", i => rows[i]?.Counts.Matched),
        new WholeColumn($"{name}_missed", "", i => rows[i]?.Counts.Missed),
        new WholeColumn($"{name}_extra", "", i => rows[i]?.Counts.Extra),
        new WholeColumn($"{name}_timed_count", "", i => rows[i]?.TimedCount),
        new LongWholeColumn($"{name}_timing_sum_ns", Nanoseconds, i => (decimal?)rows[i]?.TimingSumNs),
        new LongWholeColumn($"{name}_timing_squares_ns2", "ns²", i => (decimal?)rows[i]?.TimingSquaresNs),
        new RealColumn($"{name}_timing_bias_ms", Milliseconds, i => Timing(rows[i])?.Mean),
        new RealColumn($"{name}_timing_sd_ms", Milliseconds, i => Timing(rows[i])?.Sd),
        new WholeColumn($"{name}_timing_p95_ns", Nanoseconds, i => rows[i]?.TimingP95Ns),
        new WholeColumn($"{name}_unusable_reference_count", "", i => rows[i]?.UnusableTruth),
        new WholeColumn($"{name}_unusable_detection_count", "", i => rows[i]?.UnusableDetections),
    ];

    private static IEnumerable<TableColumn> Readings(string name, string unit, ReadingRow?[] rows) =>
    [
        new WholeColumn($"{name}_count", "", i => rows[i]?.Count),
        new LongWholeColumn($"{name}_error_sum_micro", $"10⁻⁶ {unit}", i => (decimal?)rows[i]?.SumMicro),
        new LongWholeColumn($"{name}_error_squares_micro2", $"(10⁻⁶ {unit})²", i => (decimal?)rows[i]?.SquaresMicro),
        new RealColumn($"{name}_bias", unit, i => Errors(rows[i])?.Mean),
        new RealColumn($"{name}_sd", unit, i => Errors(rows[i])?.Sd),
        new RealColumn($"{name}_rms", unit, i => Errors(rows[i])?.Rms),
        new WholeColumn($"{name}_off_count", "", i => rows[i]?.OffCount),
        new WholeColumn($"{name}_nothing_there_count", "", i => rows[i]?.NothingThereCount),
        new WholeColumn($"{name}_in_unusable_count", "", i => rows[i]?.InUnusableCount),
        new WholeColumn($"{name}_first_reading_ns", Nanoseconds, i => rows[i]?.FirstReadingNs),
        new WholeColumn($"{name}_usable_ns", Nanoseconds, i => rows[i]?.UsableNs),
        new WholeColumn($"{name}_available_ns", Nanoseconds, i => rows[i]?.AvailableNs),
        new LongWholeColumn($"{name}_latency_sum_ns", Nanoseconds, i => (decimal?)rows[i]?.LatencySumNs),
    ];

    private static ErrorSums? Timing(EventRow? row) => row is null ? null : Sums(row.TimedCount, row.TimingSumNs, row.TimingSquaresNs);

    private static ErrorSums? Errors(ReadingRow? row) => row is null ? null : Sums(row.Count, row.SumMicro, row.SquaresMicro);

    // Nanoseconds to milliseconds, or millionths to units: both by 10⁻⁶.
    private static ErrorSums Sums(long count, Int128 sum, Int128 squares)
    {
        var sums = new ErrorSums(1e-6);
        sums.Add(count, sum, squares);
        return sums;
    }
}
