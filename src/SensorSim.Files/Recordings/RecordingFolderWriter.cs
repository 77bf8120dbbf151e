// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Writes a stream as a folder of CSV files: <c>channels.csv</c> and one <c>&lt;channel&gt;.csv</c> per channel.</summary>
/// <remarks>
/// <c>&lt;channel&gt;.csv</c> is <c>sample,code,status</c>, status as the sum of the <see cref="SampleStatus"/> flags; a gap is a
/// jump of the sample number. <c>channels.csv</c> holds the format and the end tick, so that a gap at the very end is kept.
/// </remarks>
public sealed class RecordingFolderWriter : IDisposable
{
    private readonly OutputFolder _folder;
    private readonly StreamFormat _format;
    private readonly CsvWriter[] _channels;
    private long _endTick;

    /// <summary>Starts a recording.</summary>
    /// <param name="folder">Receives the files; the caller commits it after <see cref="Complete"/>.</param>
    /// <param name="format">Format of the stream.</param>
    public RecordingFolderWriter(OutputFolder folder, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(format);
        _folder = folder;
        _format = format;
        _channels = [.. format.Channels.Select(c =>
            new CsvWriter(folder.CreateFile(RecordingNames.Samples(c.Name)), RecordingNames.SamplesHeader))];
    }

    /// <summary>Writes the samples of a block; blocks come in order, without a stretch left out.</summary>
    /// <param name="block">The block.</param>
    /// <exception cref="ArgumentException">The block does not begin where the one before ended.</exception>
    public void Write(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (block.BeginTick != _endTick)
        {
            throw new ArgumentException($"The block begins at tick {block.BeginTick}; the one before ended at {_endTick}.", nameof(block));
        }

        _endTick = block.EndTick;
        for (int i = 0; i < _channels.Length; i++)
        {
            ChannelBlock channel = block.Channels[i];
            foreach (SampleRun run in channel.Runs)
            {
                for (int k = 0; k < run.Count; k++)
                {
                    _channels[i].Integer(run.FirstIndex + k);
                    _channels[i].Integer(channel.Codes[run.Offset + k]);
                    _channels[i].Integer(channel.Status[run.Offset + k]);
                    _channels[i].EndRow();
                }
            }
        }
    }

    /// <summary>Writes the list of channels and closes every file.</summary>
    public void Complete()
    {
        Dispose();
        ChannelsCsvWriter.Write(_folder.CreateFile(RecordingNames.Channels), _format, _endTick);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (CsvWriter channel in _channels)
        {
            channel.Dispose();
        }
    }
}
