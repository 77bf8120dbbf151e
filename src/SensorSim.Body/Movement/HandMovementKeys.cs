// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>Knobs of movement beside gait: typing, gestures, tremor, taps, a vehicle. Each is off by default and independent of the others.</summary>
public static class HandMovementKeys
{
    /// <summary>Size of typing.</summary>
    public static readonly NumberKey TypingG = Size(
        "typing", "Peak of a middling key stroke; strokes come in bursts of four seconds, about six a second.", "0.02 to 0.1 g (from memory); bursts: choice of this project.", 1);

    /// <summary>Gestures in a minute.</summary>
    public static readonly NumberKey GesturesPerMin = Rate("gestures", "Gestures in a minute: reaching out and back within 0.8 to 2 s.", 20, 0);

    /// <summary>Size of gestures.</summary>
    public static readonly NumberKey GestureG = Size(
        "gesture",
        "Peak acceleration of a gesture; the sensor turns against gravity by the angle that this takes on a forearm of 0.3 m, at most 70 degrees.",
        "0.5 to 2 g (from memory).",
        4,
        1);

    /// <summary>Size of tremor.</summary>
    public static readonly NumberKey TremorG = Size(
        "tremor", "Tremor along its main direction: the square root of 2 times its rms, the peak of a sine as strong.", "Physiological 0.1 mm at 10 Hz 0.04 g, strong 1 cm at 5 Hz 1 g (calculated); up to 4 g: choice of this project.", 4);

    /// <summary>Frequency of tremor.</summary>
    public static readonly NumberKey TremorHz = new()
    {
        Name = "movement.tremor_hz",
        Unit = "Hz",
        Meaning = "Middle of the narrow band of tremor.",
        Source = "Physiological 8 to 12, essential 4 to 12, parkinsonian 3 to 8 Hz (review PMC6806079, 2019).",
        Minimum = 3,
        Maximum = 12,
        Default = 10,
    };

    /// <summary>Taps in a minute.</summary>
    public static readonly NumberKey TapsPerMin = Rate("taps", "Taps on the sensor in a minute: damped transients of some 60 ms.", 240, 0);

    /// <summary>Size of taps.</summary>
    public static readonly NumberKey TapG = Size("tap", "Peak of a middling tap.", "Choice of this project.", 8, 1);

    /// <summary>Size of vehicle vibration.</summary>
    public static readonly NumberKey VehicleGRms = new()
    {
        Name = "movement.vehicle_g_rms",
        Unit = "g",
        Meaning = "Vibration of a vehicle along each axis, rms: broad from 1 to 20 Hz, and a slow sway of a thirteenth of its power.",
        Source = "Some 0.03 to 0.1 g in a car on a road (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 2,
        Default = 0,
    };

    /// <summary>Every knob of movement beside gait.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [TypingG, GesturesPerMin, GestureG, TremorG, TremorHz, TapsPerMin, TapG, VehicleGRms];

    private static NumberKey Size(string name, string meaning, string source, double most, double value = 0) => new()
    {
        Name = $"movement.{name}_g",
        Unit = "g",
        Meaning = meaning,
        Source = source,
        IsLive = true,
        Minimum = 0,
        Maximum = most,
        Default = value,
    };

    private static NumberKey Rate(string name, string meaning, double most, double value) => new()
    {
        Name = $"movement.{name}_per_min",
        Unit = "1/min",
        Meaning = meaning,
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = most,
        Default = value,
    };
}
