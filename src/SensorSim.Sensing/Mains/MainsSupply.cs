// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Mains;

/// <summary>The phase of the mains supply, shared by everything that it disturbs.</summary>
internal static class MainsSupply
{
    /// <summary>The phase; its frequency wanders over half a minute to ten minutes.</summary>
    public static WanderingPhase Create(KeyValues values, ulong seed) => new(
        new KeyedRandom(seed, "mains.phase"), values[MainsKeys.FrequencyHz], values[MainsKeys.WanderHz], 0.0017, 0.033);
}
