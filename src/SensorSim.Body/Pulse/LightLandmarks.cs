// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Pulse;

/// <summary>The true landmarks of one pulse in red, infrared and green light, in this order.</summary>
[InlineArray(PulseGains.Count)]
public struct LightLandmarks
{
    private PulseLandmarks _first;
}
