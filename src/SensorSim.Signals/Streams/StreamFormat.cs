// SPDX-License-Identifier: MIT
using SensorSim.Signals.Time;

namespace SensorSim.Signals.Streams;

/// <summary>The channels of a stream and their common clock. A channel's index in <see cref="Channels"/> is its number.</summary>
public sealed class StreamFormat
{
    private readonly ChannelFormat[] _channels;
    private readonly long[] _ticksPerSample;

    /// <summary>Creates a format; the clock is the lowest common multiple of the channels' rates.</summary>
    /// <param name="channels">At least one channel, each name at most once, in ascending order of name.</param>
    /// <exception cref="ArgumentException">There is no channel, a name repeats, or the order is wrong.</exception>
    public StreamFormat(IEnumerable<ChannelFormat> channels)
    {
        _channels = [.. channels];
        if (_channels.Length == 0)
        {
            throw new ArgumentException("A stream needs at least one channel.", nameof(channels));
        }

        var rates = new int[_channels.Length];
        for (int i = 0; i < _channels.Length; i++)
        {
            rates[i] = _channels[i].RateHz;
            if (i > 0 && _channels[i].Name <= _channels[i - 1].Name)
            {
                throw new ArgumentException(
                    $"Channel {_channels[i].Name.Text()} comes after {_channels[i - 1].Name.Text()}; channels go in ascending order, each once.",
                    nameof(channels));
            }
        }

        Clock = TickClock.FromRates(rates);
        _ticksPerSample = Array.ConvertAll(rates, rate => Clock.TicksPerSecond / rate);
    }

    /// <summary>The clock on which every nominal sampling instant is a whole tick.</summary>
    public TickClock Clock { get; }

    /// <summary>The channels, in ascending order of name.</summary>
    public IReadOnlyList<ChannelFormat> Channels => _channels;

    /// <summary>Number of a channel, or −1 when the stream does not have it.</summary>
    /// <param name="name">Channel to look for.</param>
    public int IndexOf(ChannelName name) => Array.FindIndex(_channels, c => c.Name == name);

    /// <summary>Ticks from one sample of a channel to the next.</summary>
    /// <param name="channel">Channel number.</param>
    public long TicksPerSample(int channel) => _ticksPerSample[channel];

    /// <summary>Index of the first sample of a channel at or after a tick.</summary>
    /// <param name="channel">Channel number.</param>
    /// <param name="tick">Tick, at least 0.</param>
    public long FirstSampleAtOrAfter(int channel, long tick)
    {
        long step = TicksPerSample(channel);
        return (tick + step - 1) / step;
    }

    /// <summary>
    /// Nominal device time of a sample position, with its fraction [ns], rounded down: no declared delay taken off.
    /// </summary>
    /// <param name="channel">Channel number.</param>
    /// <param name="sample">Sample index.</param>
    /// <param name="fraction256">Position after the sample, in 1/256 of a sampling interval, 0 to 255.</param>
    public long DeviceTimeNs(int channel, long sample, int fraction256)
    {
        long rate = _channels[channel].RateHz;
        long seconds = Math.DivRem(sample, rate, out long rest);
        if (rest < 0)
        {
            seconds--;
            rest += rate;
        }

        return checked(seconds * TickClock.NanosecondsPerSecond)
            + ((rest * 256) + fraction256) * TickClock.NanosecondsPerSecond / (rate * 256);
    }
}
