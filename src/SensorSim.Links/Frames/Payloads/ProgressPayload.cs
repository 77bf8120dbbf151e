// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: how far it is, and what it has counted; also the payload of <c>stopped</c>.</summary>
/// <param name="Session">Number of the session.</param>
/// <param name="Credit"><c>samples</c> may be sent up to this number.</param>
/// <param name="TakenTick">Tick up to which samples are taken, 0 to 2^62.</param>
/// <param name="Accepted">Frames accepted.</param>
/// <param name="Damaged">Frames that came damaged.</param>
/// <param name="Missing">Numbers that were passed over.</param>
/// <param name="Repeated">Frames that came again, or too late.</param>
/// <param name="MarksSent">Marks sent so far.</param>
/// <param name="ClockUs">Clock of the board [µs], wraps.</param>
public readonly record struct ProgressPayload(
    uint Session, uint Credit, long TakenTick, uint Accepted, uint Damaged, uint Missing, uint Repeated, uint MarksSent, uint ClockUs)
{
    private const int Bytes = 40;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>progress</c> or <c>stopped</c> frame.</param>
    /// <param name="progress">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out ProgressPayload progress)
    {
        progress = default;
        if (payload.Length != Bytes)
        {
            return false;
        }

        progress = new ProgressPayload(
            BinaryPrimitives.ReadUInt32LittleEndian(payload),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[4..]),
            BinaryPrimitives.ReadInt64LittleEndian(payload[8..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[16..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[20..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[24..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[28..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[32..]),
            BinaryPrimitives.ReadUInt32LittleEndian(payload[36..]));
        return progress.TakenTick is >= 0 and <= TickPayload.MaximumTick;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="payload">Receives it; at least 40 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(payload, Session);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[4..], Credit);
        BinaryPrimitives.WriteInt64LittleEndian(payload[8..], TakenTick);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[16..], Accepted);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[20..], Damaged);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[24..], Missing);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[28..], Repeated);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[32..], MarksSent);
        BinaryPrimitives.WriteUInt32LittleEndian(payload[36..], ClockUs);
        return Bytes;
    }
}
