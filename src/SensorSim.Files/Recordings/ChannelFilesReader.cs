// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Reads a recording that has a list of channels and files of its own for each of them, as a stream.</summary>
public abstract class ChannelFilesReader : ISampleStream, IDisposable
{
    private readonly IChannelReader[] _channels;

    /// <summary>Opens every file.</summary>
    /// <param name="channelsPath">Path of the list of channels.</param>
    /// <param name="open">Opens the samples of a channel; told the first index after its end.</param>
    private protected ChannelFilesReader(string channelsPath, Func<ChannelFormat, long, IChannelReader> open)
    {
        (Format, EndTick) = ChannelsCsvReader.Read(channelsPath);
        _channels = new IChannelReader[Format.Channels.Count];
        try
        {
            for (int i = 0; i < _channels.Length; i++)
            {
                _channels[i] = open(Format.Channels[i], Format.FirstSampleAtOrAfter(i, EndTick));
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
        // One that could not be opened is not there, nor are those after it.
        foreach (IChannelReader? channel in _channels)
        {
            channel?.Dispose();
        }

        GC.SuppressFinalize(this);
    }
}
