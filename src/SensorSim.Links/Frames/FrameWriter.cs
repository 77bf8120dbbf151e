// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames;

/// <summary>Makes frames of one direction of a link and numbers them. Allocates nothing per frame.</summary>
/// <remarks>Not safe for use by several threads at once.</remarks>
public sealed class FrameWriter
{
    private readonly byte[] _body = new byte[FrameLimits.MaximumBody];

    /// <summary>Creates a writer.</summary>
    /// <param name="firstSequence">Number of the first frame.</param>
    public FrameWriter(uint firstSequence = 0) => NextSequence = firstSequence;

    /// <summary>Number that the next frame will have; after 2^32 − 1 comes 0.</summary>
    public uint NextSequence { get; private set; }

    /// <summary>Makes a frame. <c>hello</c>, <c>about</c> and <c>ask</c> get a 00 in front, so that no rest of something before them spoils them.</summary>
    /// <param name="type">What the payload is.</param>
    /// <param name="payload">At most <see cref="FrameLimits.MaximumPayload"/> bytes.</param>
    /// <param name="wire">Receives the bytes for the wire; <see cref="FrameLimits.WireBuffer"/> bytes always do.</param>
    /// <returns>Bytes written, the final 00 among them.</returns>
    /// <exception cref="ArgumentException">The payload is too long, or the room for the frame too short.</exception>
    public int Write(FrameType type, ReadOnlySpan<byte> payload, Span<byte> wire)
    {
        if (payload.Length > FrameLimits.MaximumPayload)
        {
            throw new ArgumentException($"A payload holds at most {FrameLimits.MaximumPayload} bytes, not {payload.Length}.", nameof(payload));
        }

        int length = FrameLimits.HeaderBytes + payload.Length;
        _body[0] = FrameLimits.Version;
        _body[1] = (byte)type;
        BinaryPrimitives.WriteUInt16LittleEndian(_body.AsSpan(2), (ushort)payload.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(_body.AsSpan(4), NextSequence);
        payload.CopyTo(_body.AsSpan(FrameLimits.HeaderBytes));
        BinaryPrimitives.WriteUInt32LittleEndian(_body.AsSpan(length), Crc32C.Of(_body.AsSpan(0, length)));

        int at = type is FrameType.Hello or FrameType.About or FrameType.Ask ? 1 : 0;
        if (wire.Length < at + length + FrameLimits.CheckBytes + 2)
        {
            throw new ArgumentException($"The frame needs {at + length + FrameLimits.CheckBytes + 2} bytes, not {wire.Length}.", nameof(wire));
        }

        wire[0] = 0;
        at += Cobs.Encode(_body.AsSpan(0, length + FrameLimits.CheckBytes), wire[at..]);
        wire[at] = 0;
        NextSequence++;
        return at + 1;
    }
}
