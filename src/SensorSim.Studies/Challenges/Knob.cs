// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Challenges;

/// <summary>A disturbance that a challenge may turn up: one key from a mild value to a harsh one.</summary>
public sealed record Knob
{
    /// <summary>The key.</summary>
    public required NumberKey Key { get; init; }

    /// <summary>Value where it disturbs nobody; a scenario that sets the key itself begins at its own value instead.</summary>
    public required double Mild { get; init; }

    /// <summary>Harshest value searched, inside what a body, a room or a sensor may do.</summary>
    public required double Harsh { get; init; }

    /// <summary>Whether equal steps of harshness are equal ratios of the value, instead of equal differences; both ends are then above 0.</summary>
    public bool IsInRatios { get; init; }

    /// <summary>What the whole range counts in the harshness of an input: 1 for what every wearer meets, more for what is rare.</summary>
    public double Weight { get; init; } = 1;

    /// <summary>Share of the weight that counts as soon as the knob is turned at all, for what its other values do by themselves [0 to 1].</summary>
    public double Least { get; init; }

    /// <summary>Values that other keys get when the knob is turned up, unless the scenario or another knob sets them.</summary>
    public IReadOnlyList<KeyValue> Along { get; init; } = [];

    /// <summary>Where the harsh end comes from.</summary>
    public required string Source { get; init; }

    /// <summary>What a level counts in the harshness of an input.</summary>
    /// <param name="level">The level, above 0 up to 1.</param>
    public double HarshnessAt(double level) => Weight * (Least + ((1 - Least) * level));

    /// <summary>What a user names it: the key, and which way when the key has two knobs.</summary>
    public string Name => Way.Length == 0 ? Key.Name : $"{Key.Name}:{Way}";

    /// <summary>Which way the knob turns, when its key has two; else empty.</summary>
    public string Way { get; init; } = "";
}
