// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Movement;

// Arrays that live inside their owner, in the lengths that the movement stages need.

/// <summary>Twelve words in place: three axes times the four functions of the reference.</summary>
[InlineArray(Length)]
public struct Word12
{
    /// <summary>Words held.</summary>
    public const int Length = 12;
    private int _first;
}

/// <summary>Four words in place.</summary>
[InlineArray(Length)]
public struct Word4
{
    /// <summary>Words held.</summary>
    public const int Length = 4;
    private int _first;
}

/// <summary>Four words of 64 bits in place.</summary>
[InlineArray(Length)]
public struct Power4
{
    /// <summary>Words held.</summary>
    public const int Length = 4;
    private long _first;
}

/// <summary>Sixty-four halves of a word in place.</summary>
[InlineArray(Length)]
public struct Half64
{
    /// <summary>Halves held.</summary>
    public const int Length = 64;
    private short _first;
}

/// <summary>Eighty halves of a word in place.</summary>
[InlineArray(Length)]
public struct Half80
{
    /// <summary>Halves held.</summary>
    public const int Length = 80;
    private short _first;
}

/// <summary>Three bytes in place: one for each axis.</summary>
[InlineArray(Length)]
public struct Byte3
{
    /// <summary>Bytes held.</summary>
    public const int Length = 3;
    private byte _first;
}

/// <summary>Eighty bytes in place.</summary>
[InlineArray(Length)]
public struct Byte80
{
    /// <summary>Bytes held.</summary>
    public const int Length = 80;
    private byte _first;
}

/// <summary>One hundred and four halves of a word in place.</summary>
[InlineArray(Length)]
public struct Half104
{
    /// <summary>Halves held.</summary>
    public const int Length = 104;
    private short _first;
}
