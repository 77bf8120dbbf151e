// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>Items of 12 bytes: number, index, value.</summary>
internal static class ItemBytes
{
    public const int Each = 12;

    /// <summary>How many items a payload holds; −1 when its length is none of theirs.</summary>
    public static int Count(ReadOnlySpan<byte> payload)
        => payload.Length % Each == 0 && payload.Length <= FrameLimits.MaximumPayload ? payload.Length / Each : -1;

    public static SetupItem Read(ReadOnlySpan<byte> bytes) => new(
        BinaryPrimitives.ReadUInt16LittleEndian(bytes),
        BinaryPrimitives.ReadUInt16LittleEndian(bytes[2..]),
        BinaryPrimitives.ReadInt64LittleEndian(bytes[4..]));

    public static void Write(ushort item, ushort index, long value, Span<byte> bytes)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, item);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[2..], index);
        BinaryPrimitives.WriteInt64LittleEndian(bytes[4..], value);
    }
}
