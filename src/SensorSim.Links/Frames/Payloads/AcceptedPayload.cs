// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: a <c>format</c>, <c>setup</c>, <c>start</c> or <c>capture</c> was accepted.</summary>
/// <param name="Type">Type of what was accepted.</param>
/// <param name="Sequence">Number of that frame.</param>
public readonly record struct AcceptedPayload(FrameType Type, uint Sequence)
{
    private const int Bytes = 8;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of an <c>accepted</c> frame.</param>
    /// <param name="accepted">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out AcceptedPayload accepted)
    {
        bool fits = payload.Length == Bytes;
        accepted = fits ? new AcceptedPayload((FrameType)payload[0], BinaryPrimitives.ReadUInt32LittleEndian(payload[4..])) : default;
        return fits;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="payload">Receives it; at least 8 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        payload[..Bytes].Clear();
        payload[0] = (byte)Type;
        BinaryPrimitives.WriteUInt32LittleEndian(payload[4..], Sequence);
        return Bytes;
    }
}
