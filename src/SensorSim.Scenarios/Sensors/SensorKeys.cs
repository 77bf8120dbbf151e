// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Sensors;

/// <summary>Keys of the sensor as a whole, and which keys a sensor file may hold.</summary>
public static class SensorKeys
{
    // What surrounds the sensor is the scenario's business.
    private static readonly string[] s_ofTheRoom = ["ambient", "mains", "ecg_noise"];

    /// <summary>Title.</summary>
    public static readonly TextKey Title = new()
    {
        Name = "sensor.title",
        Meaning = "What the sensor is, in a few words; shown with the results.",
        HasDefault = false,
        Source = "Choice of this project.",
    };

    /// <summary>Every key of the sensor as a whole.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Title];

    /// <summary>Every key that a sensor file may hold: what the sensor is; neither body nor room.</summary>
    public static IReadOnlyList<KeyDefinition> OfAFile { get; } =
        [.. All, .. SensingKeys.All.Where(k => !s_ofTheRoom.Contains(k.Section, StringComparer.Ordinal))];
}
