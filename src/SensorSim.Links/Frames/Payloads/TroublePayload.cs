// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: a frame could not be used, or something is wrong with the board.</summary>
/// <param name="Code">What is wrong; may be a number that <see cref="TroubleCode"/> does not name.</param>
/// <param name="Sequence">Number of the frame that it is about, 0 when there is none.</param>
/// <param name="Text">In words.</param>
public readonly record struct TroublePayload(TroubleCode Code, uint Sequence, string Text)
{
    private const int FixedBytes = 8;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>trouble</c> frame.</param>
    /// <param name="trouble">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out TroublePayload trouble)
    {
        trouble = default;
        if (payload.Length < FixedBytes)
        {
            return false;
        }

        trouble = new TroublePayload(
            (TroubleCode)BinaryPrimitives.ReadUInt16LittleEndian(payload),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[4..]),
            PayloadText.Read(payload[FixedBytes..]));
        return true;
    }

    /// <summary>Writes the payload; text that does not fit is cut.</summary>
    /// <param name="payload">Receives it; at least 8 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(payload, (ushort)Code);
        BinaryPrimitives.WriteUInt16LittleEndian(payload[2..], 0);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[4..], Sequence);
        return FixedBytes + PayloadText.Write(Text, payload[FixedBytes..Math.Min(payload.Length, FrameLimits.MaximumPayload)]);
    }
}
