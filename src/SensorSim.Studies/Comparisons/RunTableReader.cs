// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Tables;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Comparisons;

/// <summary>Makes the rows of a study from the table of its runs again: the same whole numbers that <see cref="Sweeps.RunTable"/> wrote.</summary>
public static class RunTableReader
{
    /// <summary>The rows, in the order of the table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="file">Its file as the user named it, for messages.</param>
    /// <exception cref="InputFileException">A column is missing or of another type, or a value that must be there is not.</exception>
    public static IReadOnlyList<RunRow> Rows(ColumnTable table, string file)
    {
        ArgumentNullException.ThrowIfNull(table);
        var columns = new Columns(table, file);
        (ChannelName Channel, MarkKind Kind, string Name)[] pairs =
        [
            .. from channel in Enum.GetValues<ChannelName>()
               from kind in Enum.GetValues<MarkKind>()
               select (channel, kind, $"{channel.Text()}_{kind.Text()}"),
        ];
        var events = pairs.Where(p => columns.Has($"{p.Name}_matched")).ToArray();
        var readings = pairs.Where(p => columns.Has($"{p.Name}_error_sum_micro")).ToArray();
        Dictionary<string, Verdict> verdicts = Enum.GetValues<Verdict>().ToDictionary(SummaryJson.Word, v => v, StringComparer.Ordinal);
        var rows = new RunRow[table.RowCount];
        for (int i = 0; i < rows.Length; i++)
        {
            string word = columns.Text("verdict", i);
            rows[i] = new RunRow
            {
                Run = columns.Whole("run", i),
                Verdict = verdicts.TryGetValue(word, out Verdict verdict) ? verdict : throw new InputFileException(file, 0, 0, $"the verdict {word} is none that this version knows."),
                VerdictReason = columns.Text("verdict_reason", i),
                SampleCount = columns.Whole("sample_count", i),
                MarkCount = columns.Whole("mark_count", i),
                ScoredNs = columns.Whole("scored_ns", i),
                Events = [.. events.Where(p => columns.WholeOrNull($"{p.Name}_matched", i) is not null).Select(p => Event(columns, p, i))],
                Readings = [.. readings.Where(p => columns.WholeOrNull($"{p.Name}_count", i) is not null).Select(p => Reading(columns, p, i))],
            };
        }

        return rows;
    }

    private static EventRow Event(Columns columns, (ChannelName Channel, MarkKind Kind, string Name) of, int row) => new()
    {
        Channel = of.Channel,
        Kind = of.Kind,
        Counts = new DetectionCounts(
            columns.Whole($"{of.Name}_matched", row), columns.Whole($"{of.Name}_missed", row), columns.Whole($"{of.Name}_extra", row)),
        TimedCount = columns.Whole($"{of.Name}_timed_count", row),
        TimingSumNs = columns.Long($"{of.Name}_timing_sum_ns", row),
        TimingSquaresNs = columns.Long($"{of.Name}_timing_squares_ns2", row),
        TimingP95Ns = columns.WholeOrNull($"{of.Name}_timing_p95_ns", row),
        UnusableTruth = columns.Whole($"{of.Name}_unusable_reference_count", row),
        UnusableDetections = columns.Whole($"{of.Name}_unusable_detection_count", row),
    };

    private static ReadingRow Reading(Columns columns, (ChannelName Channel, MarkKind Kind, string Name) of, int row) => new()
    {
        Channel = of.Channel,
        Kind = of.Kind,
        Count = columns.Whole($"{of.Name}_count", row),
        SumMicro = columns.Long($"{of.Name}_error_sum_micro", row),
        SquaresMicro = columns.Long($"{of.Name}_error_squares_micro2", row),
        OffCount = columns.Whole($"{of.Name}_off_count", row),
        NothingThereCount = columns.Whole($"{of.Name}_nothing_there_count", row),
        InUnusableCount = columns.Whole($"{of.Name}_in_unusable_count", row),
        FirstReadingNs = columns.WholeOrNull($"{of.Name}_first_reading_ns", row),
        UsableNs = columns.Whole($"{of.Name}_usable_ns", row),
        AvailableNs = columns.Whole($"{of.Name}_available_ns", row),
        LatencySumNs = columns.Long($"{of.Name}_latency_sum_ns", row),
    };

    private sealed class Columns(ColumnTable table, string file)
    {
        private readonly Dictionary<string, TableColumn> _byName = table.Columns.ToDictionary(c => c.Name, StringComparer.Ordinal);

        public bool Has(string name) => _byName.ContainsKey(name);

        public long? WholeOrNull(string name, int row) => Of<WholeColumn>(name).At(row);

        public long Whole(string name, int row) => WholeOrNull(name, row) ?? throw Missing(name, row);

        public Int128 Long(string name, int row) => (Int128)(Of<LongWholeColumn>(name).At(row) ?? throw Missing(name, row));

        public string Text(string name, int row) => Of<TextColumn>(name).At(row);

        private InputFileException Missing(string name, int row) => new(file, 0, 0, $"{name} has no value in row {row}; this is no table of a finished sweep.");

        private T Of<T>(string name)
            where T : TableColumn => _byName.GetValueOrDefault(name) as T
                ?? throw new InputFileException(file, 0, 0, $"column {name} is missing or of another type; this is no table of a finished sweep.");
    }
}
