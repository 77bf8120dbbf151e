// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Numerics;

namespace SensorSim.Files.Journals;

/// <summary>
/// The bytes of a journal, little-endian throughout: a head of eight letters, version and length, the owner's header and the sum of all that;
/// then records, each its length, the sum of length and content, and the content.
/// </summary>
/// <remarks>
/// The sum is CRC-32C (Castagnoli, reflected, all ones before and after). It covers the length too, so that a stretch of zeros, as some disks
/// leave after a power failure, is no record.
/// </remarks>
internal static class JournalFormat
{
    /// <summary>Bytes before the owner's header: letters, version, length.</summary>
    public const int HeadBytes = 16;

    /// <summary>Bytes before a record's content: length and sum.</summary>
    public const int FrameBytes = 8;

    /// <summary>Bytes of a sum.</summary>
    public const int SumBytes = 4;

    /// <summary>Longest header and longest record.</summary>
    public const int LongestBytes = 1 << 28;

    private const uint Version = 1;

    private static ReadOnlySpan<byte> Letters => "SIMJRNL\n"u8;

    /// <summary>Head, header and sum in one.</summary>
    public static byte[] Head(ReadOnlySpan<byte> header)
    {
        byte[] head = new byte[HeadBytes + header.Length + SumBytes];
        Letters.CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(8), Version);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(12), (uint)header.Length);
        header.CopyTo(head.AsSpan(HeadBytes));
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(head.Length - SumBytes), Sum(head.AsSpan(0, head.Length - SumBytes)));
        return head;
    }

    /// <summary>Whether a file begins as a journal does, of whatever version.</summary>
    public static bool HasLetters(ReadOnlySpan<byte> head) => head.StartsWith(Letters);

    /// <summary>Whether it is a version that this program reads.</summary>
    public static bool HasVersion(ReadOnlySpan<byte> head) => BinaryPrimitives.ReadUInt32LittleEndian(head[8..]) == Version;

    /// <summary>Length of the owner's header.</summary>
    public static uint HeaderLength(ReadOnlySpan<byte> head) => BinaryPrimitives.ReadUInt32LittleEndian(head[12..]);

    /// <summary>Writes length and sum before a record's content.</summary>
    /// <param name="frame">Room for both, then the content.</param>
    public static void Frame(Span<byte> frame)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(frame, (uint)(frame.Length - FrameBytes));
        BinaryPrimitives.WriteUInt32LittleEndian(frame[4..], RecordSum(frame));
    }

    /// <summary>Whether a record with its frame is whole.</summary>
    public static bool IsWhole(ReadOnlySpan<byte> frame) => BinaryPrimitives.ReadUInt32LittleEndian(frame[4..]) == RecordSum(frame);

    /// <summary>Sum of some bytes.</summary>
    public static uint Sum(ReadOnlySpan<byte> bytes) => ~Add(uint.MaxValue, bytes);

    private static uint RecordSum(ReadOnlySpan<byte> frame) => ~Add(Add(uint.MaxValue, frame[..4]), frame[FrameBytes..]);

    private static uint Add(uint sum, ReadOnlySpan<byte> bytes)
    {
        while (bytes.Length >= sizeof(ulong))
        {
            sum = BitOperations.Crc32C(sum, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
            bytes = bytes[sizeof(ulong)..];
        }

        foreach (byte b in bytes)
        {
            sum = BitOperations.Crc32C(sum, b);
        }

        return sum;
    }
}
