// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads what <see cref="RawRecordingWriter"/> wrote as a stream: the same codes, status words and gaps.</summary>
public sealed class RawRecordingReader : ISampleStream, IDisposable
{
    private readonly RawChannelReader[] _channels;

    /// <summary>Opens a stimulus.</summary>
    /// <param name="folder">Path of the case's folder.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be.</exception>
    public RawRecordingReader(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        (Format, EndTick) = ChannelsCsvReader.Read(Path.Combine(folder, SetNames.StimulusChannels));
        _channels = new RawChannelReader[Format.Channels.Count];
        try
        {
            for (int i = 0; i < _channels.Length; i++)
            {
                _channels[i] = new RawChannelReader(folder, Format.Channels[i], Format.FirstSampleAtOrAfter(i, EndTick));
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

    /// <summary>Whether a folder holds a stimulus of this kind.</summary>
    /// <param name="folder">Path of the folder.</param>
    public static bool IsThere(string folder) => File.Exists(Path.Combine(folder, SetNames.StimulusChannels));

    /// <inheritdoc/>
    /// <exception cref="InputFileException">A row or a code is not what it should be.</exception>
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
        foreach (RawChannelReader? channel in _channels)
        {
            channel?.Dispose();
        }
    }
}
