// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Consecutive samples of one channel in a <c>samples</c> frame, in place.</summary>
public readonly ref struct SamplesSection
{
    private readonly ReadOnlySpan<byte> _status;
    private readonly ReadOnlySpan<byte> _codes;
    private readonly int _bits;
    private readonly bool _isSigned;

    internal SamplesSection(int channel, ChannelFormat format, long firstIndex, int count, ReadOnlySpan<byte> status, ReadOnlySpan<byte> codes)
    {
        Channel = channel;
        FirstIndex = firstIndex;
        Count = count;
        _status = status;
        _codes = codes;
        _bits = format.Bits;
        _isSigned = format.IsSigned;
    }

    /// <summary>Channel number.</summary>
    public int Channel { get; }

    /// <summary>Sample index of the first one.</summary>
    public long FirstIndex { get; }

    /// <summary>Samples, 1 to 255.</summary>
    public int Count { get; }

    /// <summary>Unpacks the codes.</summary>
    /// <param name="codes">Receives them; room for <see cref="Count"/>.</param>
    public void CopyCodes(Span<int> codes) => BitPacking.Unpack(_codes, _bits, _isSigned, codes[..Count]);

    /// <summary>Copies the status words.</summary>
    /// <param name="status">Receives them; room for <see cref="Count"/>.</param>
    public void CopyStatus(Span<ushort> status)
    {
        if (_status.Length <= 2)
        {
            status[..Count].Fill(_status.IsEmpty ? (ushort)0 : BinaryPrimitives.ReadUInt16LittleEndian(_status));
            return;
        }

        for (int i = 0; i < Count; i++)
        {
            status[i] = BinaryPrimitives.ReadUInt16LittleEndian(_status[(2 * i)..]);
        }
    }
}
