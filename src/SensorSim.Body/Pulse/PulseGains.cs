// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Pulse;

/// <summary>Absorbance of one pulse unit for red, infrared and green light, in this order [natural logarithm, no unit].</summary>
[InlineArray(Count)]
public struct PulseGains
{
    /// <summary>Kinds of light.</summary>
    public const int Count = 3;

    private double _first;
}
