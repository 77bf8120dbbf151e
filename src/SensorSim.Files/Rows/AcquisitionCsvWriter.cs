// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Writes <c>acquisition.csv</c>: <c>channel,item,begin_ns,end_ns,value,unit,label</c>, nominal device time.</summary>
public sealed class AcquisitionCsvWriter : IDisposable
{
    private readonly CsvWriter _csv;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    public AcquisitionCsvWriter(Stream stream) => _csv = new CsvWriter(stream, AcquisitionRow.Header);

    /// <summary>Writes device, rate, bits, scale and declared delay of every channel of a stream, valid throughout.</summary>
    /// <param name="format">Format of the stream.</param>
    public void WriteFormat(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        foreach (AcquisitionRow row in format.Channels.SelectMany(AcquisitionRow.Of))
        {
            Write(row);
        }
    }

    /// <summary>Writes a row.</summary>
    /// <param name="row">The row.</param>
    /// <exception cref="ArgumentException">A text holds a comma, a quotation mark or a line end, or the item is not a word.</exception>
    public void Write(in AcquisitionRow row)
    {
        if (!AcquisitionRow.IsItem(row.Item))
        {
            throw new ArgumentException($"The item {InputFiles.Quote(row.Item)} must consist of a-z, 0-9 and underscores.", nameof(row));
        }

        _csv.Text(row.Channel.Text());
        _csv.Text(row.Item);
        _csv.Integer(row.BeginNs);
        _csv.Integer(row.EndNs);
        _csv.Number(row.Value);
        _csv.Text(row.Unit);
        _csv.Text(row.Label);
        _csv.EndRow();
    }

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();
}
