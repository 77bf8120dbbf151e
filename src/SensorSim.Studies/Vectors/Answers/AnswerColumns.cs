// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>The columns of <c>detections.csv</c> as text, for comparison column by column.</summary>
internal static class AnswerColumns
{
    private static readonly (string Name, Func<DetectionRow, string> Text)[] s_columns =
    [
        ("channel", r => r.Channel.Text()),
        ("kind", r => r.Kind.Text()),
        ("sample", r => Text(r.Sample)),
        ("time_ns", r => Text(r.TimeNs)),
        ("value", r => double.IsNaN(r.Value) ? "none" : r.Value.ToString("R", CultureInfo.InvariantCulture)),
        ("quality", r => Text(r.Quality)),
        ("paired_time_ns", r => Text(r.PairedTimeNs)),
        ("window_begin_ns", r => Text(r.WindowBeginNs)),
        ("window_end_ns", r => Text(r.WindowEndNs)),
        ("emitted_time_ns", r => Text(r.EmittedTimeNs)),
    ];

    /// <summary>Those of some columns that can be compared, in the order of the file.</summary>
    public static IReadOnlyList<string> Compared(IReadOnlyList<string> columns) => [.. s_columns.Select(c => c.Name).Where(n => columns.Contains(n, StringComparer.Ordinal))];

    /// <summary>An answer as one line of the columns that are compared.</summary>
    public static string Line(in DetectionRow row, IReadOnlyList<string> columns)
    {
        DetectionRow own = row;
        return string.Join(',', s_columns.Where(c => columns.Contains(c.Name, StringComparer.Ordinal)).Select(c => c.Text(own)));
    }

    /// <summary>The columns that differ, with both texts.</summary>
    public static IEnumerable<(string Column, string Expected, string Given)> Different(DetectionRow expected, DetectionRow given, IReadOnlyList<string> columns) => s_columns
        .Where(c => columns.Contains(c.Name, StringComparer.Ordinal))
        .Select(c => (c.Name, Expected: c.Text(expected), Given: c.Text(given)))
        .Where(d => d.Expected != d.Given);

    private static string Text(long? value) => value?.ToString(CultureInfo.InvariantCulture) ?? "none";
}
