// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;

namespace SensorSim.Files.Rows;

/// <summary>Reads <c>detections.csv</c>, ours or another detector's.</summary>
/// <remarks>
/// Only <c>channel</c>, <c>kind</c> and <c>time_ns</c> must be there, so that a detector outside the project need not make up
/// the rest: a missing sample is −1, a missing quality 255, a missing emission the row's own time.
/// </remarks>
public sealed class DetectionsCsvReader : CsvRowReader<DetectionRow>
{
    private const long Least = long.MinValue / 4;
    private const long Most = long.MaxValue / 4;
    private static readonly string[] s_required = ["channel", "kind", "time_ns"];
    private static readonly string[] s_optional =
        ["sample", "value", "quality", "paired_time_ns", "window_begin_ns", "window_end_ns", "emitted_time_ns"];

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public DetectionsCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public DetectionsCsvReader(Stream stream, string fileName)
        : base(stream, fileName, s_required, s_optional, isStrict: true)
    {
    }

    private protected override DetectionRow Parse() => RowOf(Table);

    /// <summary>The row that a table stands at; whatever reads these columns reads them here.</summary>
    /// <param name="table">Its first ten columns are those of <see cref="DetectionRow.Header"/>.</param>
    internal static DetectionRow RowOf(CsvTable table)
    {
        long timeNs = table.Integer(2, Least, Most);
        return new DetectionRow(
            table.Channel(0),
            table.Kind(1),
            table.OptionalInteger(3, Least, Most) ?? -1,
            timeNs,
            table.OptionalNumber(4),
            (int)(table.OptionalInteger(5, 0, 255) ?? 255),
            table.OptionalInteger(6, Least, Most),
            table.OptionalInteger(7, Least, Most),
            table.OptionalInteger(8, Least, Most),
            table.OptionalInteger(9, Least, Most) ?? timeNs);
    }
}
