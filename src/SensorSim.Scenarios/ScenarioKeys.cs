// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios;

/// <summary>Keys of the scenario itself.</summary>
public static class ScenarioKeys
{
    private const string Own = "Choice of this project.";

    /// <summary>Title.</summary>
    public static readonly TextKey Title = new()
    {
        Name = "scenario.title",
        Meaning = "What the scenario is, in a line; shown in tables and pictures.",
        HasDefault = false,
        Source = Own,
    };

    /// <summary>Length.</summary>
    public static readonly NumberKey DurationS = new()
    {
        Name = "scenario.duration_s",
        Unit = "s",
        Meaning = "Length of the stream.",
        Source = Own,
        Minimum = 1,
        Maximum = 3e7,
        Default = 60,
    };

    /// <summary>Seed.</summary>
    public static readonly NumberKey Seed = new()
    {
        Name = "scenario.seed",
        Meaning = "Seed of every random draw; another seed gives another person-minute of the same kind.",
        Source = Own,
        IsWhole = true,
        Minimum = 0,
        Maximum = 9007199254740991,
        Default = 1,
    };

    /// <summary>Sensor.</summary>
    public static readonly TextKey Sensor = new()
    {
        Name = "scenario.sensor",
        Meaning = "Path of a sensor file, from the scenario's folder on: it gives every key of the sensor that the scenario does not set itself.",
        HasDefault = false,
        Source = Own,
    };

    /// <summary>Every key of the scenario itself.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Title, DurationS, Seed, Sensor];
}
