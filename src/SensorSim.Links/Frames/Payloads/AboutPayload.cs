// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: who it is and what it can take.</summary>
/// <param name="Session">Number of the session, as <c>hello</c> gave it.</param>
/// <param name="Version">Version of the protocol that the board chose.</param>
/// <param name="LargestPayload">Largest payload that it takes [bytes].</param>
/// <param name="Credit">How many <c>samples</c> frames it can hold.</param>
/// <param name="StateBytes">State of its detector [bytes].</param>
/// <param name="Detector">Name and version of the detector.</param>
public readonly record struct AboutPayload(uint Session, byte Version, ushort LargestPayload, uint Credit, uint StateBytes, string Detector)
{
    private const int FixedBytes = 16;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of an <c>about</c> frame.</param>
    /// <param name="about">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out AboutPayload about)
    {
        about = default;
        if (payload.Length < FixedBytes)
        {
            return false;
        }

        about = new AboutPayload(
            BinaryPrimitives.ReadUInt32LittleEndian(payload),
            payload[4],
            BinaryPrimitives.ReadUInt16LittleEndian(payload[6..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[8..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[12..]),
            PayloadText.Read(payload[FixedBytes..]));
        return true;
    }

    /// <summary>Writes the payload; text that does not fit is cut.</summary>
    /// <param name="payload">Receives it; at least 16 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(payload, Session);
        payload[4] = Version;
        payload[5] = 0;
        BinaryPrimitives.WriteUInt16LittleEndian(payload[6..], LargestPayload);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[8..], Credit);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[12..], StateBytes);
        return FixedBytes + PayloadText.Write(Detector, payload[FixedBytes..Math.Min(payload.Length, FrameLimits.MaximumPayload)]);
    }
}
