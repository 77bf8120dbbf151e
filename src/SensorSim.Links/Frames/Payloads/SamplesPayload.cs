// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Samples of all channels of a stretch of time, in place: nothing is copied until it is asked for.</summary>
/// <remarks>Of <see cref="SamplesReader.TryRead"/>, which has looked at everything.</remarks>
public readonly ref struct SamplesPayload
{
    internal const int FixedBytes = 16;
    internal const int SectionBytes = 4;
    internal const byte AsksProgress = 1;

    private readonly ReadOnlySpan<byte> _payload;
    private readonly StreamFormat _format;

    internal SamplesPayload(ReadOnlySpan<byte> payload, StreamFormat format)
    {
        _payload = payload;
        _format = format;
    }

    /// <summary>First tick of the stretch.</summary>
    public long BeginTick => BinaryPrimitives.ReadInt64LittleEndian(_payload);

    /// <summary>First tick after the stretch.</summary>
    public long EndTick => BeginTick + BinaryPrimitives.ReadUInt32LittleEndian(_payload[8..]);

    /// <summary>Channels that have samples in it.</summary>
    public int SectionCount => _payload[12];

    /// <summary>Whether <c>progress</c> is wanted once these samples are taken.</summary>
    public bool WantsProgress => (_payload[13] & AsksProgress) != 0;

    /// <summary>The sections, in ascending order of channel; for <c>foreach</c>.</summary>
    public SamplesSections GetEnumerator() => new(_payload, _format);

    /// <summary>Adds the samples to a block whose stretch holds theirs.</summary>
    /// <param name="block">Made for the same format; what it has already lies before these samples.</param>
    /// <exception cref="InvalidOperationException">They find no room, or do not lie after what is there.</exception>
    public void AppendTo(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        foreach (SamplesSection section in this)
        {
            block.Channels[section.Channel].Append(section.FirstIndex, section.Count, out Span<int> codes, out Span<ushort> status);
            section.CopyCodes(codes);
            section.CopyStatus(status);
        }
    }
}
