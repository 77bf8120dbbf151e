// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>A frame that was accepted.</summary>
/// <param name="type">What the payload is; may be a number that <see cref="FrameType"/> does not name.</param>
/// <param name="sequence">Number of the frame in its direction.</param>
/// <param name="payload">The payload.</param>
public readonly ref struct Frame(FrameType type, uint sequence, ReadOnlySpan<byte> payload)
{
    /// <summary>What the payload is; may be a number that <see cref="FrameType"/> does not name.</summary>
    public FrameType Type { get; } = type;

    /// <summary>Number of the frame in its direction.</summary>
    public uint Sequence { get; } = sequence;

    /// <summary>The payload; valid until the reader's next call.</summary>
    public ReadOnlySpan<byte> Payload { get; } = payload;
}
