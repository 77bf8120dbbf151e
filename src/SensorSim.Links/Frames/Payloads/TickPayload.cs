// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Host: the tick at which samples begin (<c>start</c>) or end (<c>stop</c>).</summary>
/// <param name="Tick">The tick, 0 to 2^62.</param>
public readonly record struct TickPayload(long Tick)
{
    /// <summary>The largest tick that any frame may speak of; leaves room to compute with.</summary>
    public const long MaximumTick = 1L << 62;

    private const int Bytes = 8;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>start</c> or <c>stop</c> frame.</param>
    /// <param name="tick">What it says.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out TickPayload tick)
    {
        tick = payload.Length == Bytes ? new TickPayload(BinaryPrimitives.ReadInt64LittleEndian(payload)) : new TickPayload(-1);
        return tick.Tick is >= 0 and <= MaximumTick;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="payload">Receives it; at least 8 bytes.</param>
    /// <returns>Bytes written.</returns>
    public int Write(Span<byte> payload)
    {
        BinaryPrimitives.WriteInt64LittleEndian(payload, Tick);
        return Bytes;
    }
}
