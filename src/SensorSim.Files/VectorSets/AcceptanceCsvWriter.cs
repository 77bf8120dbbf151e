// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Writes <c>acceptance.csv</c>: <c>requirement,channel,kind,rule,begin_ns,end_ns,low,high,emitted_by_ns,beat_id</c>, nominal device time.</summary>
public sealed class AcceptanceCsvWriter : IDisposable
{
    private readonly CsvWriter _csv;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    public AcceptanceCsvWriter(Stream stream) => _csv = new CsvWriter(stream, AcceptanceRow.Header);

    /// <summary>Writes a whole file.</summary>
    /// <param name="stream">Receives the text; closed at the end.</param>
    /// <param name="rows">The rows.</param>
    public static void Write(Stream stream, IEnumerable<AcceptanceRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        using var writer = new AcceptanceCsvWriter(stream);
        foreach (AcceptanceRow row in rows)
        {
            writer.Write(row);
        }
    }

    /// <summary>Writes a row.</summary>
    /// <param name="row">The row.</param>
    public void Write(in AcceptanceRow row)
    {
        _csv.Text(row.Requirement);
        _csv.Text(row.Channel is ChannelName channel ? channel.Text() : "");
        _csv.Text(row.Kind.Text());
        _csv.Text(row.Rule.Text());
        _csv.Integer(row.BeginNs);
        _csv.Integer(row.EndNs);
        _csv.Number(row.Low);
        _csv.Number(row.High);
        _csv.Integer(row.EmittedByNs);
        _csv.Integer(row.BeatId < 0 ? null : row.BeatId);
        _csv.EndRow();
    }

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();
}
