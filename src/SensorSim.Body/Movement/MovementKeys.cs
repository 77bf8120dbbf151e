// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>Knobs of movement: walking and running, and how the body lies.</summary>
public static class MovementKeys
{
    /// <summary>What the person does.</summary>
    public static readonly ChoiceKey Activity = new()
    {
        Name = "movement.activity",
        Meaning = "What the person does; a change begins at its time and takes 1.5 s.",
        Source = "Choice of this project.",
        IsLive = true,
        Choices = ["rest", "walking", "running"],
        Default = "rest",
    };

    /// <summary>Steps in a second.</summary>
    public static readonly NumberKey CadenceHz = new()
    {
        Name = "movement.cadence_hz",
        Unit = "Hz",
        Meaning = "Steps in a second while walking or running, at least 0.5 then; not given: 1.9 Hz walking, 2.7 Hz running.",
        Source = "Walking 1.98 +- 0.15 Hz at the wrist (Wu et al., arXiv 2203.10563, 2022); walking 1.4 to 2.5, running 2.5 to 3.2 Hz from memory.",
        IsLive = true,
        Minimum = 0,
        Maximum = 3.5,
        Default = 1.9,
    };

    /// <summary>Cadence as a multiple of the heart rate.</summary>
    public static readonly NumberKey CadencePerBeat = new()
    {
        Name = "movement.cadence_per_beat",
        Meaning = "Steps for each beat at heart.rate_bpm, in place of movement.cadence_hz: 1 steps at the heart rate, 2 puts the arm swing on it; not given: off.",
        Source = "Cadence near the heart rate or its double misleads estimates of the heart rate (common knowledge of the trade).",
        Minimum = 0.25,
        Maximum = 4,
        Default = 1,
        HasDefault = false,
    };

    /// <summary>Spread of the cadence.</summary>
    public static readonly NumberKey CadenceSpreadHz = new()
    {
        Name = "movement.cadence_spread_hz",
        Unit = "Hz",
        Meaning = "Standard deviation of the cadence about its mean, wandering over 10 to 200 s; at most a fifth of the cadence.",
        Source = "Choice of this project, a third of the spread between persons of Wu et al. 2022.",
        Minimum = 0,
        Maximum = 0.3,
        Default = 0.05,
    };

    /// <summary>Variation from step to step.</summary>
    public static readonly NumberKey StepVariationPercent = new()
    {
        Name = "movement.step_variation_percent",
        Unit = "%",
        Meaning = "Standard deviation of the size of a step, drawn for each step; the heel strike varies twice as much.",
        Source = "A few percent from stride to stride in healthy gait (from memory).",
        Minimum = 0,
        Maximum = 20,
        Default = 4,
    };

    /// <summary>Size of the movement.</summary>
    public static readonly NumberKey AmplitudeG = new()
    {
        Name = "movement.amplitude_g",
        Unit = "g",
        Meaning = "Peak of the vertical acceleration at the cadence; not given, walking and running: finger 0.4 and 1.8, wrist 0.5 and 2, chest 0.3 and 1.4, ear 0.25 and 1 g.",
        Source = "Chest walking 0.2 to 0.5, running 1 to 2; wrist walking 0.3 to 0.8, running 1 to 4 g (from memory); finger and ear: choices of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 8,
        Default = 0.4,
    };

    /// <summary>How the body lies.</summary>
    public static readonly ChoiceKey Posture = new()
    {
        Name = "movement.posture",
        Meaning = "How the body lies: sets the direction of gravity in the sensor's axes; a change takes 2 s.",
        Source = "Choice of this project.",
        IsLive = true,
        Choices = ["upright", "supine", "prone", "left_side", "right_side"],
        Default = "upright",
    };

    /// <summary>Every knob of movement.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [Activity, CadenceHz, CadencePerBeat, CadenceSpreadHz, StepVariationPercent, AmplitudeG, Posture, .. HandMovementKeys.All];
}
