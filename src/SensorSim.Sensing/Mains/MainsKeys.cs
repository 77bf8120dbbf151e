// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Mains;

/// <summary>Knobs of the mains supply: one drifting frequency for ECG interference and lamp flicker.</summary>
public static class MainsKeys
{
    /// <summary>Mean mains frequency.</summary>
    public static readonly NumberKey FrequencyHz = new()
    {
        Name = "mains.frequency_hz",
        Unit = "Hz",
        Meaning = "Mean mains frequency; lamps flicker at twice this. Exactly 50 Hz would alias to nothing in 100 Hz slots.",
        Source = "50 or 60 Hz, normally within 0.2 Hz (from memory).",
        Minimum = 45,
        Maximum = 65,
        Default = 50.03,
    };

    /// <summary>Wander of the mains frequency.</summary>
    public static readonly NumberKey WanderHz = new()
    {
        Name = "mains.wander_hz",
        Unit = "Hz",
        Meaning = "Standard deviation of the slow wander of the mains frequency.",
        Source = "Choice of this project inside the 0.2 Hz above.",
        Minimum = 0,
        Maximum = 0.2,
        Default = 0.02,
    };

    /// <summary>Every knob of the mains supply.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [FrequencyHz, WanderHz];
}
