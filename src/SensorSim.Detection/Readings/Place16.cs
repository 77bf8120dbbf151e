// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Readings;

/// <summary>Sixteen places in time, held in place as in a C struct.</summary>
[InlineArray(Length)]
public struct Place16
{
    /// <summary>Places held.</summary>
    public const int Length = 16;
    private long _first;
}
