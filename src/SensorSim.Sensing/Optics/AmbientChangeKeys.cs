// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of what happens to ambient light by itself: daylight, sun and shade, hands that pass, lamps that are switched.</summary>
/// <remarks>Rates are fixed: a candidate is kept or not for good, so a rate moves no other event. Depths may change.</remarks>
public static class AmbientChangeKeys
{
    private const string Own = "Choice of this project.";

    /// <summary>How often mains-fed light is switched.</summary>
    public static readonly NumberKey LampSwitchPerMin = PerMin(
        "lamp_switch_per_min", "How many times a minute the mains-fed light is switched off or on, on average; off half of the time, each change takes 20 ms; 0: always on.", 60);

    /// <summary>Daylight.</summary>
    public static readonly NumberKey DaylightLux = new()
    {
        Name = "ambient.daylight_lux",
        Unit = "lux",
        Meaning = "Illuminance of daylight at the sensor, without flicker; times ambient.daylight_na_per_lux it is a photocurrent.",
        Source = "Overcast 1000 to 5000, daylight without sun 10000 to 25000, direct sun 32000 to 120000 lux (public illuminance tables).",
        IsLive = true,
        Minimum = 0,
        Maximum = 150000,
        Default = 0,
    };

    /// <summary>Photocurrent for each lux of daylight.</summary>
    public static readonly NumberKey DaylightNaPerLux = new()
    {
        Name = "ambient.daylight_na_per_lux",
        Unit = "nA/lux",
        Meaning = "Photocurrent for each lux of daylight, behind housing and skin; more than of lamps, for the sun's infrared counts too.",
        Source = "1000 W/m² of sun are some 100000 lux (from memory): 7 mm² of 0.4 A/W give 28 nA/lux (own arithmetic); the default lets a fortieth through, a choice of this project.",
        Minimum = 0,
        Maximum = 100,
        Default = 0.7,
    };

    /// <summary>How often daylight goes between sun and shade.</summary>
    public static readonly NumberKey ShadePerMin = PerMin(
        "shade_per_min", "How many times a minute daylight goes from sun to shade or back, on average, shade half of the time; 0: always sun.", 60);

    /// <summary>Depth of the shade.</summary>
    public static readonly NumberKey ShadeDepthPercent = Depth(
        "shade_depth_percent", "How much of the daylight the shade takes.", "Sun 32000 to 120000, daylight without sun 10000 to 25000 lux (public illuminance tables).", 80);

    /// <summary>How long sun and shade take to change.</summary>
    public static readonly NumberKey ShadeRampS = new()
    {
        Name = "ambient.shade_ramp_s",
        Unit = "s",
        Meaning = "How long it takes from sun to shade or back.",
        Source = Own,
        Minimum = 0.02,
        Maximum = 30,
        Default = 2,
    };

    /// <summary>How often hands pass.</summary>
    public static readonly NumberKey HandPerMin = PerMin(
        "hand_per_min", "How many times a minute a hand or a person passes before all ambient light, for 0.3 to 1.5 s each time; 0: never.", 30);

    /// <summary>Depth of a hand's shadow.</summary>
    public static readonly NumberKey HandDepthPercent = Depth(
        "hand_depth_percent", "How much of all ambient light a passing hand takes at its middle.", Own, 60);

    /// <summary>Every knob of changes of ambient light.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        LampSwitchPerMin, DaylightLux, DaylightNaPerLux, ShadePerMin, ShadeDepthPercent, ShadeRampS, HandPerMin, HandDepthPercent,
    ];

    private static NumberKey PerMin(string key, string meaning, double most) => new()
    {
        Name = "ambient." + key,
        Unit = "1/min",
        Meaning = meaning,
        Source = Own,
        Minimum = 0,
        Maximum = most,
        Default = 0,
    };

    private static NumberKey Depth(string key, string meaning, string source, double value) => new()
    {
        Name = "ambient." + key,
        Unit = "%",
        Meaning = meaning,
        Source = source,
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = value,
    };
}
