// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Writes <c>trace_STAGE.csv</c>: every value of one intermediate signal of a detector, as it is made.</summary>
public sealed class TraceCsvWriter : IDisposable
{
    /// <summary>First line of the file.</summary>
    public const string Header = "sample,time_ns,value,channel";

    private readonly CsvWriter _csv;
    private readonly StreamFormat _format;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    /// <param name="format">Format of the stream that the samples belong to.</param>
    public TraceCsvWriter(Stream stream, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _csv = new CsvWriter(stream, Header);
        _format = format;
    }

    /// <summary>Writes a row; the time is that of the sample, in nominal device time.</summary>
    /// <param name="channel">Channel of the sample whose arrival made the value; the stream has it.</param>
    /// <param name="sample">Index of that sample in its channel.</param>
    /// <param name="value">The value, a whole number.</param>
    public void Write(ChannelName channel, long sample, int value)
    {
        _csv.Integer(sample);
        _csv.Integer(_format.DeviceTimeNs(_format.IndexOf(channel), sample, 0));
        _csv.Integer(value);
        _csv.Text(channel.Text());
        _csv.EndRow();
    }

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();
}
