// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>Writes a stream as Apache Parquet: a file for each channel, because each has its own rate and its own gaps.</summary>
/// <remarks>
/// A row is a sample that came: <c>sample</c> (index), <c>code</c>, <c>status</c>, and the physical value with its unit in the column's name.
/// Rate, unit, scale, seed and version stand in the key-value metadata. Memory does not grow with the length but for the list of row groups in the footer.
/// </remarks>
public sealed class ParquetRecordingWriter : IRecordingWriter
{
    private readonly StreamFormat _format;
    private readonly RecordingFacts _facts;
    private readonly ParquetChannel[] _channels;
    private BlockOrder _order;

    /// <summary>Starts the files.</summary>
    /// <param name="folder">Receives them; committed by the caller after <see cref="Complete"/>.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="facts">Where the stream comes from.</param>
    public ParquetRecordingWriter(OutputFolder folder, StreamFormat format, RecordingFacts facts)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(facts);
        (_format, _facts) = (format, facts);
        _channels = [.. format.Channels.Select(c => new ParquetChannel(folder.CreateFile(c.Name.Text() + ".parquet"), c))];
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block)
    {
        _order.Take(block);
        for (int i = 0; i < _channels.Length; i++)
        {
            ChannelBlock channel = block.Channels[i];
            foreach (SampleRun run in channel.Runs)
            {
                for (int k = 0; k < run.Count; k++)
                {
                    _channels[i].Append(run.FirstIndex + k, channel.Codes[run.Offset + k], channel.Status[run.Offset + k]);
                }
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        for (int i = 0; i < _channels.Length; i++)
        {
            _channels[i].Complete(_facts.OfStream().Concat(RecordingFacts.OfChannel(_format, _format.Channels[i], _order.EndTick)));
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (ParquetChannel channel in _channels)
        {
            channel.Dispose();
        }
    }
}
