// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>A stretch of a stream: everything sampled from <see cref="BeginTick"/> up to, not including, <see cref="EndTick"/>.</summary>
public sealed class SampleBlock
{
    private readonly ChannelBlock[] _channels;

    /// <summary>Creates a block that can hold a number of ticks of a stream.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="maximumTicks">Longest stretch [ticks], at least 1.</param>
    public SampleBlock(StreamFormat format, long maximumTicks)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentOutOfRangeException.ThrowIfLessThan(maximumTicks, 1);
        MaximumTicks = maximumTicks;
        _channels = new ChannelBlock[format.Channels.Count];
        for (int i = 0; i < _channels.Length; i++)
        {
            _channels[i] = new ChannelBlock(checked((int)(maximumTicks / format.TicksPerSample(i)) + 1));
        }
    }

    /// <summary>Longest stretch that fits [ticks].</summary>
    public long MaximumTicks { get; }

    /// <summary>First tick of the stretch.</summary>
    public long BeginTick { get; private set; }

    /// <summary>First tick after the stretch.</summary>
    public long EndTick { get; private set; }

    /// <summary>The channels, by number.</summary>
    public ReadOnlySpan<ChannelBlock> Channels => _channels;

    /// <summary>Empties every channel and sets the stretch.</summary>
    /// <param name="beginTick">First tick.</param>
    /// <param name="endTick">First tick after the stretch; at most <see cref="MaximumTicks"/> later.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stretch is negative or too long.</exception>
    public void Begin(long beginTick, long endTick)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(endTick, beginTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(endTick - beginTick, MaximumTicks, nameof(endTick));
        BeginTick = beginTick;
        EndTick = endTick;
        foreach (ChannelBlock channel in _channels)
        {
            channel.Clear();
        }
    }
}
