// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Channels and clock of a stream: one payload for up to four channels, else two. <see cref="FormatGatherer"/> puts them together again.</summary>
public static class FormatPayload
{
    /// <summary>Most channels of a stream.</summary>
    public const int MaximumChannels = 8;

    /// <summary>Most channels in one payload.</summary>
    public const int ChannelsEach = 4;

    /// <summary>Largest declared delay, either way [1/256 tick]: sums and differences with it cannot overflow on a board.</summary>
    public const long MaximumDelay256 = 1L << 48;

    /// <summary>Largest code of physical zero, either way: no difference of a code and it overflows 32 bits on a board.</summary>
    public const int MaximumZeroCode = 1 << 24;

    internal const int FixedBytes = 8;
    internal const int ChannelBytes = 48;

    /// <summary>How many payloads tell a stream.</summary>
    /// <param name="format">The stream.</param>
    public static int Count(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return (format.Channels.Count + ChannelsEach - 1) / ChannelsEach;
    }

    /// <summary>Writes a payload.</summary>
    /// <param name="format">The stream.</param>
    /// <param name="number">Which payload, 0 to <see cref="Count"/> − 1.</param>
    /// <param name="payload">Receives it; 8 bytes and 48 for each channel, 200 always do.</param>
    /// <returns>Bytes written.</returns>
    public static int Write(StreamFormat format, int number, Span<byte> payload)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)number, (uint)Count(format), nameof(number));
        int first = number * ChannelsEach;
        int here = Math.Min(ChannelsEach, format.Channels.Count - first);
        BinaryPrimitives.WriteUInt32LittleEndian(payload, (uint)format.Clock.TicksPerSecond);
        payload[4] = (byte)format.Channels.Count;
        payload[5] = (byte)first;
        payload[6] = (byte)here;
        payload[7] = 0;
        for (int i = 0; i < here; i++)
        {
            WriteChannel(format, first + i, payload.Slice(FixedBytes + (ChannelBytes * i), ChannelBytes));
        }

        return FixedBytes + (ChannelBytes * here);
    }

    /// <summary>Declared delay of a channel [1/256 tick], rounded to the nearest, a half to even.</summary>
    /// <param name="format">The stream.</param>
    /// <param name="channel">Channel number.</param>
    public static long Delay256(StreamFormat format, int channel)
    {
        ArgumentNullException.ThrowIfNull(format);
        decimal delay = Math.Round((decimal)format.Channels[channel].DeclaredDelayNs * 256 * format.Clock.TicksPerSecond / TickClock.NanosecondsPerSecond);
        return (long)Math.Clamp(delay, long.MinValue, long.MaxValue);
    }

    private static void WriteChannel(StreamFormat format, int number, Span<byte> bytes)
    {
        ChannelFormat channel = format.Channels[number];
        bytes[0] = (byte)channel.Name;
        bytes[1] = (byte)channel.Bits;
        bytes[2] = (byte)((channel.IsSigned ? 1 : 0) | (channel.Polarity < 0 ? 2 : 0));
        bytes[3] = (byte)DeviceNumber(format, number);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[4..], (uint)channel.RateHz);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[8..], (uint)format.TicksPerSample(number));
        BinaryPrimitives.WriteInt32LittleEndian(bytes[12..], channel.ZeroCode);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[16..], (int)Math.Max(1, Math.Min(int.MaxValue, Math.Round(256 / channel.UnitPerCode))));
        BinaryPrimitives.WriteUInt32LittleEndian(bytes[20..], 0);
        BinaryPrimitives.WriteInt64LittleEndian(bytes[24..], Delay256(format, number));
        BinaryPrimitives.WriteInt64LittleEndian(bytes[32..], channel.DeclaredDelayNs);
        BinaryPrimitives.WriteDoubleLittleEndian(bytes[40..], channel.UnitPerCode);
    }

    // Devices are numbered in the order in which channels name them first.
    private static int DeviceNumber(StreamFormat format, int channel)
    {
        int number = 0;
        for (int i = 0; i < channel; i++)
        {
            bool isFirst = true;
            for (int before = 0; before < i && isFirst; before++)
            {
                isFirst = format.Channels[before].Device != format.Channels[i].Device;
            }

            if (format.Channels[i].Device == format.Channels[channel].Device)
            {
                return DeviceNumber(format, i);
            }

            number += isFirst ? 1 : 0;
        }

        return number;
    }
}
