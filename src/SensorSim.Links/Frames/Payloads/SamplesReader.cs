// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Looks at everything in the payload of a <c>samples</c> frame before any of it is used. Allocates nothing.</summary>
public sealed class SamplesReader
{
    private readonly StreamFormat _format;
    private readonly long _mostTicks;

    /// <summary>Creates a reader.</summary>
    /// <param name="format">The stream that the samples are of.</param>
    public SamplesReader(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        _format = format;
        _mostTicks = SamplesWriter.MaximumTicks(format);
    }

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>samples</c> frame.</param>
    /// <param name="samples">What it holds; valid as long as the payload.</param>
    /// <param name="trouble">What is wrong; <see cref="TroubleCode.None"/> when nothing is.</param>
    /// <returns>
    /// Whether it is one: channels that the stream has, ascending; no sample after the frame's time; at most a tenth of a second; nothing left over.
    /// </returns>
    public bool TryRead(ReadOnlySpan<byte> payload, out SamplesPayload samples, out TroubleCode trouble)
    {
        samples = default;
        trouble = TroubleCode.WrongContent;
        if (payload.Length < SamplesPayload.FixedBytes)
        {
            return false;
        }

        long begin = BinaryPrimitives.ReadInt64LittleEndian(payload);
        long ticks = BinaryPrimitives.ReadUInt32LittleEndian(payload[8..]);
        int sections = payload[12];

        // No ticks and no sections: a time mark.
        if (begin is < 0 or > TickPayload.MaximumTick || ticks > _mostTicks || (ticks == 0 && sections != 0))
        {
            return false;
        }

        int last = -1;
        ReadOnlySpan<byte> rest = payload[SamplesPayload.FixedBytes..];
        for (int i = 0; i < sections; i++)
        {
            if (!TrySkip(ref rest, begin, begin + ticks, ref last, ref trouble))
            {
                return false;
            }
        }

        if (!rest.IsEmpty)
        {
            return false;
        }

        trouble = TroubleCode.None;
        samples = new SamplesPayload(payload, _format);
        return true;
    }

    private bool TrySkip(ref ReadOnlySpan<byte> rest, long begin, long end, ref int last, ref TroubleCode trouble)
    {
        if (rest.Length < SamplesPayload.SectionBytes)
        {
            return false;
        }

        (int channel, int mode, int count, int gap) = (rest[0], rest[1], rest[2], rest[3]);
        if (channel >= _format.Channels.Count)
        {
            trouble = TroubleCode.NoSuchChannel;
            return false;
        }

        if (channel <= last || mode > 2 || count == 0)
        {
            return false;
        }

        long lastIndex = _format.FirstSampleAtOrAfter(channel, begin) + gap + count - 1;
        int bytes = SamplesPayload.SectionBytes + SamplesSections.StatusBytes(mode, count) + BitPacking.Bytes(count, _format.Channels[channel].Bits);
        if (lastIndex >= _format.FirstSampleAtOrAfter(channel, end) || bytes > rest.Length)
        {
            return false;
        }

        last = channel;
        rest = rest[bytes..];
        return true;
    }
}
