// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>What sets the arrival of the pulse.</summary>
public static class ArrivalKeys
{
    /// <summary>Where the arrival time comes from.</summary>
    public static readonly ChoiceKey From = new()
    {
        Name = "arrival.from",
        Meaning = "knob: pulse.arrival_ms is the arrival time; pressure: it follows from pre-ejection period and wave speed.",
        Source = "Choice of this project.",
        Choices = ["knob", "pressure"],
        Default = "knob",
    };

    /// <summary>Every knob of the arrival.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [From];
}
