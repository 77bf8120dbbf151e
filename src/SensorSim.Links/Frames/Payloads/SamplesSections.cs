// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Goes through the sections of a <c>samples</c> frame.</summary>
public ref struct SamplesSections
{
    private readonly StreamFormat _format;
    private readonly long _beginTick;
    private ReadOnlySpan<byte> _rest;
    private int _left;

    internal SamplesSections(ReadOnlySpan<byte> payload, StreamFormat format)
    {
        _format = format;
        _beginTick = BinaryPrimitives.ReadInt64LittleEndian(payload);
        _left = payload[12];
        _rest = payload[SamplesPayload.FixedBytes..];
    }

    /// <summary>The section that was reached.</summary>
    public SamplesSection Current { get; private set; }

    /// <summary>Goes to the next section.</summary>
    /// <returns>Whether there is one.</returns>
    public bool MoveNext()
    {
        if (_left == 0)
        {
            return false;
        }

        (int channel, int count) = (_rest[0], _rest[2]);
        ChannelFormat format = _format.Channels[channel];
        int statusBytes = StatusBytes(_rest[1], count);
        int codeBytes = BitPacking.Bytes(count, format.Bits);
        Current = new SamplesSection(
            channel,
            format,
            _format.FirstSampleAtOrAfter(channel, _beginTick) + _rest[3],
            count,
            _rest.Slice(SamplesPayload.SectionBytes, statusBytes),
            _rest.Slice(SamplesPayload.SectionBytes + statusBytes, codeBytes));
        _rest = _rest[(SamplesPayload.SectionBytes + statusBytes + codeBytes)..];
        _left--;
        return true;
    }

    internal static int StatusBytes(int mode, int count) => mode == 0 ? 0 : mode == 1 ? 2 : 2 * count;
}
