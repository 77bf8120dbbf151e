// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>Sizes and numbers of a frame that both ends hold to.</summary>
public static class FrameLimits
{
    /// <summary>Version of the protocol that this code speaks.</summary>
    public const byte Version = 1;

    /// <summary>Bytes of a body before its payload: version, type, length, sequence.</summary>
    public const int HeaderBytes = 8;

    /// <summary>Bytes of the check after the payload.</summary>
    public const int CheckBytes = 4;

    /// <summary>Most bytes of a payload.</summary>
    public const int MaximumPayload = 240;

    /// <summary>Most bytes of a body.</summary>
    public const int MaximumBody = HeaderBytes + MaximumPayload + CheckBytes;

    /// <summary>Most bytes between two 00: COBS adds exactly one to a body.</summary>
    public const int MaximumEncoded = MaximumBody + 1;

    /// <summary>A buffer of this size holds any frame as it goes over the wire, with a 00 before and after it.</summary>
    public const int WireBuffer = 256;
}
