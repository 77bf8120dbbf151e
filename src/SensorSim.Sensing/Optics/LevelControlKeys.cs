// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of the control of the LED current that a sensor has built in.</summary>
public static class LevelControlKeys
{
    /// <summary>On or off.</summary>
    public static readonly ChoiceKey LevelControl = new()
    {
        Name = "optics.level_control",
        Unit = "",
        Meaning = "Whether the sensor itself sets the LED current of each lit slot: when the mean code of 64 samples leaves the band, the current is set so that it would lie in the middle, at most doubled or halved at once.",
        Source = "Sensors hold the light in the converter's range by the LED current (common practice); the rule is a choice of this project.",
        Choices = ["off", "on"],
        Default = "off",
    };

    /// <summary>Lower end of the band.</summary>
    public static readonly NumberKey LowPercent = new()
    {
        Name = "optics.level_low_percent",
        Unit = "%",
        Meaning = "Lower end of the band in which the level control holds the mean code above that of no light, in percent of full scale.",
        Source = "Choice of this project.",
        Minimum = 1,
        Maximum = 90,
        Default = 30,
    };

    /// <summary>Upper end of the band.</summary>
    public static readonly NumberKey HighPercent = new()
    {
        Name = "optics.level_high_percent",
        Unit = "%",
        Meaning = "Upper end of the band in which the level control holds the mean code above that of no light, in percent of full scale.",
        Source = "Choice of this project.",
        Minimum = 2,
        Maximum = 98,
        Default = 70,
    };

    /// <summary>Largest current.</summary>
    public static readonly NumberKey MostMa = new()
    {
        Name = "optics.level_current_ma_max",
        Unit = "mA",
        Meaning = "Largest LED current that the level control sets, in steps of 0.1 mA from 0.1 mA on.",
        Source = "Peak currents of 1 to 100 mA (common practice).",
        Minimum = 1,
        Maximum = 200,
        Default = 50,
    };

    /// <summary>Every knob of the level control.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [LevelControl, LowPercent, HighPercent, MostMa];
}
