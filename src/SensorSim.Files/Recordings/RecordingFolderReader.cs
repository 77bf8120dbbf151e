// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Reads a folder written by <see cref="RecordingFolderWriter"/> as a stream: the same codes, status words and gaps.</summary>
public sealed class RecordingFolderReader : ISampleStream, IDisposable
{
    private readonly ChannelSamples[] _channels;

    /// <summary>Opens a recording.</summary>
    /// <param name="path">Path of the folder.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be.</exception>
    public RecordingFolderReader(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        (Format, EndTick) = ChannelsCsvReader.Read(Path.Combine(path, RecordingNames.Channels));
        _channels = new ChannelSamples[Format.Channels.Count];
        try
        {
            for (int i = 0; i < _channels.Length; i++)
            {
                ChannelFormat channel = Format.Channels[i];
                string file = Path.Combine(path, RecordingNames.Samples(channel.Name));
                _channels[i] = new ChannelSamples(file, channel, Format.FirstSampleAtOrAfter(i, EndTick));
            }
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick { get; }

    /// <summary>Whether a folder looks like a recording of this kind.</summary>
    /// <param name="path">Path of the folder.</param>
    public static bool IsRecording(string path) => File.Exists(Path.Combine(path, RecordingNames.Channels));

    /// <inheritdoc/>
    /// <exception cref="InputFileException">A row is not what it should be.</exception>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        for (int i = 0; i < _channels.Length; i++)
        {
            _channels[i].Read(block.Channels[i], Format.FirstSampleAtOrAfter(i, untilTick));
        }

        PositionTick = untilTick;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (ChannelSamples? channel in _channels)
        {
            channel?.Dispose();
        }
    }
}
