// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Detectors.CLibraries;

/// <summary>What goes through the pipes between this program and a child, both ways.</summary>
/// <remarks>
/// A frame is 8 bytes of head (the letters SSD, a kind, the length of the rest), then the rest. Both ends are the same build on the same
/// machine, so numbers are in its own byte order.
/// </remarks>
internal enum FrameKind : byte
{
    /// <summary>To the child: load this library.</summary>
    Load = 1,

    /// <summary>To the child: a stream begins.</summary>
    Open = 2,

    /// <summary>To the child: the next block.</summary>
    Block = 3,

    /// <summary>To the child: the stream has ended.</summary>
    Flush = 4,

    /// <summary>To the child: let go of the stream; apart from its end, so that a failure here is told as one of closing.</summary>
    Close = 5,

    /// <summary>From the child: name and constants of the library.</summary>
    Described = 17,

    /// <summary>From the child: the stream is open.</summary>
    Opened = 18,

    /// <summary>From the child: marks and requests.</summary>
    Answers = 19,

    /// <summary>From the child: the library or the stream does not fit; a sentence.</summary>
    Refused = 20,

    /// <summary>From the child: the library broke the contract; a sentence.</summary>
    Broken = 21,

    /// <summary>From the child: the stream is closed.</summary>
    Closed = 22,
}

/// <summary>The head of a frame.</summary>
internal static class FrameHead
{
    /// <summary>Bytes of the head.</summary>
    public const int Size = 8;

    /// <summary>Longest rest [bytes]; a longer one is no frame.</summary>
    public const int LongestRest = 1 << 26;

    /// <summary>Writes a head.</summary>
    public static void Write(Span<byte> head, FrameKind kind, int rest)
    {
        "SSD"u8.CopyTo(head);
        head[3] = (byte)kind;
        BinaryPrimitives.WriteInt32LittleEndian(head[4..], rest);
    }

    /// <summary>Reads a head.</summary>
    /// <exception cref="InvalidDataException">It is none.</exception>
    public static (FrameKind Kind, int Length) Read(ReadOnlySpan<byte> head)
    {
        int rest = BinaryPrimitives.ReadInt32LittleEndian(head[4..]);
        return head[..3].SequenceEqual("SSD"u8) && rest is >= 0 and <= LongestRest
            ? ((FrameKind)head[3], rest)
            : throw new InvalidDataException("These bytes are no frame.");
    }
}
