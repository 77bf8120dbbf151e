// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>Writes <c>detections.csv</c>; columns as in <see cref="DetectionRow"/>, empty where not applicable.</summary>
public sealed class DetectionsCsvWriter : IDisposable
{
    private readonly CsvWriter _csv;
    private readonly StreamFormat _format;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed with the writer.</param>
    /// <param name="format">Format of the stream that the marks speak of.</param>
    public DetectionsCsvWriter(Stream stream, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _csv = new CsvWriter(stream, DetectionRow.Header);
        _format = format;
    }

    /// <summary>Writes a row.</summary>
    /// <param name="mark">The mark; its channels exist in the format.</param>
    public void Write(in Mark mark)
    {
        long timeNs = _format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256);
        _csv.Text(_format.Channels[mark.Channel].Name.Text());
        _csv.Text(mark.Kind.Text());
        _csv.Integer(mark.Sample);
        _csv.Integer(timeNs);
        if (mark.HasValue)
        {
            _csv.Milli(mark.ValueMilli);
        }
        else
        {
            _csv.Empty();
        }

        _csv.Integer(mark.Quality);
        _csv.Integer(mark.PairedChannel == Mark.None
            ? null
            : _format.DeviceTimeNs(mark.PairedChannel, mark.PairedSample, mark.PairedFraction256));
        bool hasWindow = mark.WindowSamples > 0;
        _csv.Integer(hasWindow ? _format.DeviceTimeNs(mark.Channel, mark.Sample - mark.WindowSamples, mark.Fraction256) : null);
        _csv.Integer(hasWindow ? timeNs : null);
        _csv.Integer(_format.Clock.Nanoseconds(mark.EmittedTick));
        _csv.EndRow();
    }

    /// <summary>Hands every row written so far to the operating system: should this process die, the file holds them.</summary>
    public void Flush() => _csv.Flush();

    /// <inheritdoc/>
    public void Dispose() => _csv.Dispose();
}
