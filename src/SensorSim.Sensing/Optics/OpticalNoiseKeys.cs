// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of the noise that photocurrent and amplifier make by themselves.</summary>
public static class OpticalNoiseKeys
{
    /// <summary>Shot noise.</summary>
    public static readonly ChoiceKey ShotNoise = new()
    {
        Name = "optics.shot_noise",
        Unit = "",
        Meaning = "Shot noise of the photocurrent in every slot, from the light at the foot and the ambient light: sqrt(q I / T), T the time over which the slot gathers light.",
        Source = "Schottky, Annalen der Physik 57:541, 1918; noise bandwidth 1/(2T) of a mean over T.",
        Choices = ["off", "on"],
        Default = "off",
    };

    /// <summary>Feedback resistor.</summary>
    public static readonly NumberKey FeedbackKohm = new()
    {
        Name = "optics.feedback_kohm",
        Unit = "kΩ",
        Meaning = "Feedback resistor of the photodiode's amplifier at gain 1, for its thermal noise in every slot; 0: none.",
        Source = "10 kohm to 1 Mohm (common practice); thermal noise by Nyquist, Physical Review 32:110, 1928.",
        Minimum = 0,
        Maximum = 1e5,
        Default = 0,
    };

    /// <summary>Temperature.</summary>
    public static readonly NumberKey TemperatureC = new()
    {
        Name = "optics.temperature_c",
        Unit = "°C",
        Meaning = "Temperature of the photodiode's amplifier; only its thermal noise follows it.",
        Source = "Skin-worn electronics lie between 20 and 40 °C (common practice).",
        Minimum = -40,
        Maximum = 85,
        Default = 30,
    };

    /// <summary>Every knob of this noise.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [ShotNoise, FeedbackKohm, TemperatureC];
}
