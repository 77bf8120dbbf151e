// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Pulse;

/// <summary>The components of one beat's pulse: forward wave, reflected wave, diastolic run-off.</summary>
[InlineArray(Count)]
public struct PulseBeat
{
    /// <summary>Components of a pulse.</summary>
    public const int Count = 3;

    private PulseWave _first;
}
