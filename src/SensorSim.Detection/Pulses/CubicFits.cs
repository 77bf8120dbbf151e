// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Pulses;

/// <summary>Three cubic fits, the longest first. Steep upstrokes need short ones: a fit longer than 0.7 rise times reads the slope low.</summary>
[InlineArray(Length)]
public struct CubicFits
{
    /// <summary>Fits held.</summary>
    public const int Length = 3;

    /// <summary>The shortest.</summary>
    public const int Shortest = Length - 1;

    private CubicFit _first;
}
