// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Breathing;

/// <summary>Knobs of breathing.</summary>
public static class BreathingKeys
{
    /// <summary>Mean breathing rate.</summary>
    public static readonly NumberKey RatePerMin = new()
    {
        Name = "breathing.rate_per_min",
        Unit = "breaths/min",
        Meaning = "Mean breathing rate.",
        Source = "Adult at rest 12 to 20 per minute (textbook value, from memory); 0.25 Hz of McSharry et al. 2003.",
        IsLive = true,
        Minimum = 4,
        Maximum = 60,
        Default = 15,
    };

    /// <summary>Spread of the breathing rate.</summary>
    public static readonly NumberKey SpreadPerMin = new()
    {
        Name = "breathing.spread_per_min",
        Unit = "breaths/min",
        Meaning = "Standard deviation of the breathing rate about its mean; 0 makes breathing a pure sine.",
        Source = "Band width 0.01 Hz of McSharry et al. 2003.",
        Minimum = 0,
        Maximum = 5,
        Default = 0.6,
    };

    /// <summary>Every knob of breathing.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [RatePerMin, SpreadPerMin];
}
