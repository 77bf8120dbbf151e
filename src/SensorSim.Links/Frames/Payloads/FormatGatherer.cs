// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Puts a stream's format together from the payloads that tell it; refuses what contradicts itself.</summary>
/// <remarks>A device gets the name <c>device_</c> and its number, for frames carry no names.</remarks>
public sealed class FormatGatherer
{
    private readonly ChannelFormat?[] _channels = new ChannelFormat?[FormatPayload.MaximumChannels];
    private readonly byte[] _told = new byte[FormatPayload.MaximumChannels * FormatPayload.ChannelBytes];
    private long _ticksPerSecond;
    private int _count;

    /// <summary>The stream, once all channels are told; else null.</summary>
    public StreamFormat? Format { get; private set; }

    /// <summary>Takes a payload. One that was refused changes nothing; the same one may come again.</summary>
    /// <param name="payload">The payload of a <c>format</c> frame.</param>
    /// <param name="problem">What is wrong with it, as a sentence; null when nothing is.</param>
    /// <returns>Whether it was taken.</returns>
    public bool TryAdd(ReadOnlySpan<byte> payload, out string? problem)
    {
        problem = ProblemOf(payload);
        if (problem is not null)
        {
            return false;
        }

        var channels = (ChannelFormat?[])_channels.Clone();
        var told = (byte[])_told.Clone();
        int first = payload[5];
        for (int i = 0; i < payload[6]; i++)
        {
            ReadOnlySpan<byte> bytes = payload.Slice(FormatPayload.FixedBytes + (FormatPayload.ChannelBytes * i), FormatPayload.ChannelBytes);
            Span<byte> place = told.AsSpan(FormatPayload.ChannelBytes * (first + i), FormatPayload.ChannelBytes);
            ChannelFormat? channel = Read(bytes, first + i, out problem);
            if (channel is not null && channels[first + i] is not null && !bytes.SequenceEqual(place))
            {
                problem = Says($"channel {first + i} is told twice, and not the same");
            }

            if (problem is not null)
            {
                return false;
            }

            channels[first + i] = channel;
            bytes.CopyTo(place);
        }

        return TryFinish(channels, told, BinaryPrimitives.ReadUInt32LittleEndian(payload), payload[4], out problem);
    }

    private bool TryFinish(ChannelFormat?[] channels, byte[] told, long ticksPerSecond, int count, out string? problem)
    {
        StreamFormat? format = null;
        problem = null;
        if (Array.TrueForAll(channels[..count], c => c is not null))
        {
            try
            {
                format = new StreamFormat(channels[..count]!);
            }
            catch (ArgumentException e)
            {
                problem = Says($"the channels make no stream: {e.Message}");
                return false;
            }

            for (int i = 0; i < count && problem is null; i++)
            {
                long step = BinaryPrimitives.ReadUInt32LittleEndian(told.AsSpan((FormatPayload.ChannelBytes * i) + 8));
                problem = format.Clock.TicksPerSecond != ticksPerSecond
                    ? Says($"{ticksPerSecond} ticks per second; the lowest common multiple of the rates is {format.Clock.TicksPerSecond}")
                    : step != format.TicksPerSample(i)
                        ? Says($"{step} ticks per sample of {format.Channels[i].Name.Text()}; its rate makes them {format.TicksPerSample(i)}")
                        : null;
            }

            if (problem is not null)
            {
                return false;
            }
        }

        channels.CopyTo(_channels, 0);
        told.CopyTo(_told, 0);
        (_ticksPerSecond, _count) = (ticksPerSecond, count);
        Format ??= format;
        return true;
    }

    // Everything but the channels themselves.
    private string? ProblemOf(ReadOnlySpan<byte> payload)
    {
        if (payload.Length < FormatPayload.FixedBytes)
        {
            return Says($"{payload.Length} bytes are too few");
        }

        (int count, int first, int here) = (payload[4], payload[5], payload[6]);
        uint ticks = BinaryPrimitives.ReadUInt32LittleEndian(payload);
        return count is < 1 or > FormatPayload.MaximumChannels ? Says($"{count} channels; there may be 1 to {FormatPayload.MaximumChannels}")
            : here is < 1 or > FormatPayload.ChannelsEach || first + here > count ? Says($"channels {first} to {first + here - 1} of {count}")
            : payload.Length != FormatPayload.FixedBytes + (FormatPayload.ChannelBytes * here) ? Says($"{payload.Length} bytes for {here} channels")
            : _count != 0 && (_count != count || _ticksPerSecond != ticks) ? Says($"{count} channels and {ticks} ticks per second; before it were {_count} and {_ticksPerSecond}")
            : null;
    }

    private static ChannelFormat? Read(ReadOnlySpan<byte> bytes, int number, out string? problem)
    {
        uint rate = BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]);
        int zero = BinaryPrimitives.ReadInt32LittleEndian(bytes[12..]);
        int codes256 = BinaryPrimitives.ReadInt32LittleEndian(bytes[16..]);
        long delay256 = BinaryPrimitives.ReadInt64LittleEndian(bytes[24..]);
        double unit = BinaryPrimitives.ReadDoubleLittleEndian(bytes[40..]);
        bool isKnown = unit > 0 && double.IsFinite(unit);
        problem = bytes[0] >= ChannelNames.All.Count ? Says($"channel {number} is of kind {bytes[0]}; the kinds are 0 to {ChannelNames.All.Count - 1}")
            : bytes[1] is < 4 or > 24 ? Says($"channel {number} has {bytes[1]} bits; there may be 4 to 24")
            : rate is 0 or > int.MaxValue ? Says($"channel {number} has a rate of {rate} Hz")
            : delay256 is < -FormatPayload.MaximumDelay256 or > FormatPayload.MaximumDelay256
                ? Says($"channel {number} has a delay of {delay256}/256 ticks; it may be up to {FormatPayload.MaximumDelay256} either way")
            : zero is < -FormatPayload.MaximumZeroCode or > FormatPayload.MaximumZeroCode
                ? Says($"channel {number} has code {zero} for physical zero; it may be up to {FormatPayload.MaximumZeroCode} either way")
            : !isKnown && codes256 <= 0 ? Says($"channel {number} tells neither the unit of a code nor the codes of a unit")
            : null;
        return problem is not null ? null : new ChannelFormat
        {
            Name = (ChannelName)bytes[0],
            Bits = bytes[1],
            IsSigned = (bytes[2] & 1) != 0,
            Polarity = (bytes[2] & 2) != 0 ? -1 : 1,
            Device = Says($"device_{bytes[3]}"),
            RateHz = (int)rate,
            ZeroCode = zero,

            // A board without floating point leaves the field empty.
            UnitPerCode = isKnown ? unit : 256.0 / codes256,
            DeclaredDelayNs = BinaryPrimitives.ReadInt64LittleEndian(bytes[32..]),
        };
    }

    private static string Says(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
