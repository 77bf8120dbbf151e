// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Ecg;

/// <summary>One pacing spike: a rectangle in time at the electrodes.</summary>
/// <param name="Seconds">Its begin [s].</param>
/// <param name="WidthSeconds">Its width [s]; 0: there is none.</param>
/// <param name="Millivolts">Its height [mV]; negative points down.</param>
public readonly record struct PacingSpike(double Seconds, double WidthSeconds, double Millivolts);

/// <summary>The pacing spikes of a beat: up to two, atrium and ventricle. One of width 0 is absent.</summary>
[InlineArray(Count)]
public struct PacingSpikes
{
    /// <summary>Places for spikes.</summary>
    public const int Count = 2;

    private PacingSpike _first;
}
