// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>Knobs of movement.</summary>
public static class MovementKeys
{
    /// <summary>What the person does.</summary>
    public static readonly ChoiceKey Activity = new()
    {
        Name = "movement.activity",
        Meaning = "What the person does.",
        Source = "Choice of this project.",
        Choices = ["rest", "walking"],
        Default = "rest",
    };

    /// <summary>Steps in a second.</summary>
    public static readonly NumberKey CadenceHz = new()
    {
        Name = "movement.cadence_hz",
        Unit = "Hz",
        Meaning = "Steps in a second while walking.",
        Source = "Walking 1.98 +- 0.15 Hz at the wrist (Wu et al., arXiv 2203.10563, 2022); range of walking and running from memory.",
        Minimum = 0.8,
        Maximum = 3.5,
        Default = 1.9,
    };

    /// <summary>Spread of the cadence.</summary>
    public static readonly NumberKey CadenceSpreadHz = new()
    {
        Name = "movement.cadence_spread_hz",
        Unit = "Hz",
        Meaning = "Standard deviation of the cadence about its mean.",
        Source = "Choice of this project, a third of the spread between persons of Wu et al. 2022.",
        Minimum = 0,
        Maximum = 0.3,
        Default = 0.05,
    };

    /// <summary>Size of the movement.</summary>
    public static readonly NumberKey AmplitudeG = new()
    {
        Name = "movement.amplitude_g",
        Unit = "g",
        Meaning = "Peak of the vertical acceleration at the cadence while walking.",
        Source = "0.2 to 0.8 g at chest and wrist (from memory).",
        Minimum = 0,
        Maximum = 8,
        Default = 0.4,
    };

    /// <summary>Every knob of movement.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Activity, CadenceHz, CadenceSpreadHz, AmplitudeG];
}
