// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Readings;

// Arrays of small words that live inside their owner, as in a C struct. Memory is why they are small.

/// <summary>Four places in time, held in place.</summary>
[InlineArray(Length)]
public struct Long4
{
    /// <summary>Places held.</summary>
    public const int Length = 4;
    private long _first;
}

/// <summary>Four bytes in place.</summary>
[InlineArray(Length)]
public struct Byte4
{
    /// <summary>Bytes held.</summary>
    public const int Length = 4;
    private byte _first;
}

/// <summary>Eight bytes in place.</summary>
[InlineArray(Length)]
public struct Byte8
{
    /// <summary>Bytes held.</summary>
    public const int Length = 8;
    private byte _first;
}

/// <summary>Eight words of 16 bits in place.</summary>
[InlineArray(Length)]
public struct Half8
{
    /// <summary>Words held.</summary>
    public const int Length = 8;
    private ushort _first;
}

/// <summary>Sixteen words of 16 bits in place.</summary>
[InlineArray(Length)]
public struct Half16
{
    /// <summary>Words held.</summary>
    public const int Length = 16;
    private ushort _first;
}

/// <summary>Thirty-two words of 16 bits in place.</summary>
[InlineArray(Length)]
public struct Half32
{
    /// <summary>Words held.</summary>
    public const int Length = 32;
    private ushort _first;
}

/// <summary>Forty-eight words of 16 bits in place.</summary>
[InlineArray(Length)]
public struct Half48
{
    /// <summary>Words held.</summary>
    public const int Length = 48;
    private ushort _first;
}

/// <summary>Sixty-four signed bytes in place.</summary>
[InlineArray(Length)]
public struct Signed64
{
    /// <summary>Bytes held.</summary>
    public const int Length = 64;
    private sbyte _first;
}

/// <summary>Thirty-two words of 32 bits in place.</summary>
[InlineArray(Length)]
public struct Mask32
{
    /// <summary>Words held.</summary>
    public const int Length = 32;
    private uint _first;
}
