// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Host: a session begins.</summary>
/// <param name="Session">Any number, new for each session.</param>
/// <param name="OldestVersion">Oldest version of the protocol that the host speaks.</param>
/// <param name="NewestVersion">Newest version.</param>
/// <param name="Who">Name and version of the host, for people.</param>
public readonly record struct HelloPayload(uint Session, byte OldestVersion, byte NewestVersion, string Who)
{
    private const int FixedBytes = 8;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>hello</c> frame.</param>
    /// <param name="hello">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out HelloPayload hello)
    {
        hello = default;
        if (payload.Length < FixedBytes)
        {
            return false;
        }

        hello = new HelloPayload(BinaryPrimitives.ReadUInt32LittleEndian(payload), payload[4], payload[5], PayloadText.Read(payload[FixedBytes..]));
        return true;
    }

    /// <summary>Writes the payload; text that does not fit is cut.</summary>
    /// <param name="payload">Receives it; at least 8 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        payload[..FixedBytes].Clear();
        BinaryPrimitives.WriteUInt32LittleEndian(payload, Session);
        payload[4] = OldestVersion;
        payload[5] = NewestVersion;
        return FixedBytes + PayloadText.Write(Who, payload[FixedBytes..Math.Min(payload.Length, FrameLimits.MaximumPayload)]);
    }
}
