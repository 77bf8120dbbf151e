// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Beats;

/// <summary>Four wide words in place.</summary>
[InlineArray(Length)]
public struct Wide4
{
    /// <summary>Words held.</summary>
    public const int Length = 4;
    private long _first;
}

/// <summary>Sixteen short words in place.</summary>
[InlineArray(Length)]
public struct Slopes16
{
    /// <summary>Words held.</summary>
    public const int Length = 16;
    private short _first;
}
