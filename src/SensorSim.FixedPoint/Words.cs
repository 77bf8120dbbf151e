// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.FixedPoint;

// Arrays that live inside their owner, as in a C struct: state of a known size, copied by assignment.
// Each holds its words without a name of its own; the index operator of the language reaches them.

/// <summary>Eight words in place.</summary>
[InlineArray(Length)]
public struct Word8
{
    /// <summary>Words held.</summary>
    public const int Length = 8;
    private int _first;
}

/// <summary>Sixteen words in place.</summary>
[InlineArray(Length)]
public struct Word16
{
    /// <summary>Words held.</summary>
    public const int Length = 16;
    private int _first;
}

/// <summary>Thirty-two words in place.</summary>
[InlineArray(Length)]
public struct Word32
{
    /// <summary>Words held.</summary>
    public const int Length = 32;
    private int _first;
}

/// <summary>Sixty-four words in place.</summary>
[InlineArray(Length)]
public struct Word64
{
    /// <summary>Words held.</summary>
    public const int Length = 64;
    private int _first;
}

/// <summary>Two hundred and fifty-six words in place.</summary>
[InlineArray(Length)]
public struct Word256
{
    /// <summary>Words held.</summary>
    public const int Length = 256;
    private int _first;
}

/// <summary>Five hundred and twelve words in place.</summary>
[InlineArray(Length)]
public struct Word512
{
    /// <summary>Words held.</summary>
    public const int Length = 512;
    private int _first;
}
