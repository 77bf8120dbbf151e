// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Gate;

/// <summary>Eight half words with a sign, held in place as in a C struct.</summary>
[InlineArray(Length)]
public struct SignedHalf8
{
    /// <summary>Half words held.</summary>
    public const int Length = 8;
    private short _first;
}
