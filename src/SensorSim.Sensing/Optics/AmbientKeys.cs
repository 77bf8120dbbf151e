// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of the light that does not come from the LEDs.</summary>
public static class AmbientKeys
{
    /// <summary>Level.</summary>
    public static readonly NumberKey LevelNa = new()
    {
        Name = "ambient.level_na",
        Unit = "nA",
        Meaning = "Mean photocurrent of mains-fed room light.",
        Source = "500 lux of a white LED give about 4 µA on 7 mm² before the loss in housing and skin (own arithmetic from 310 lm/W, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 1e6,
        Default = 0,
    };

    /// <summary>Level as an illuminance.</summary>
    public static readonly NumberKey LevelLux = new()
    {
        Name = "ambient.level_lux",
        Unit = "lux",
        Meaning = "Illuminance of mains-fed room light at the sensor; times ambient.na_per_lux it adds to ambient.level_na.",
        Source = "Living room 50, office and classroom 300 to 500, supermarket 750 to 1000 lux (public illuminance tables).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20000,
        Default = 0,
    };

    /// <summary>Photocurrent for each lux of mains-fed light.</summary>
    public static readonly NumberKey NaPerLux = new()
    {
        Name = "ambient.na_per_lux",
        Unit = "nA/lux",
        Meaning = "Photocurrent for each lux of mains-fed room light, behind housing and skin.",
        Source = "7 mm² of 0.35 A/W under a white LED of 310 lm/W (from memory) give 7.9 nA/lux (own arithmetic); the default lets a fortieth through, a choice of this project.",
        Minimum = 0,
        Maximum = 30,
        Default = 0.2,
    };

    /// <summary>Flicker.</summary>
    public static readonly NumberKey FlickerPercent = new()
    {
        Name = "ambient.flicker_percent",
        Unit = "%",
        Meaning = "Flicker of the room light at twice the mains frequency: 100 (max - min) / (max + min).",
        Source = "Percent flicker as in Wilkins, Veitch, Lehman, IEEE PAR1789 update, 2010; 5 to 45 % by lamp (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 10,
    };

    /// <summary>Second harmonic of the flicker.</summary>
    public static readonly NumberKey FlickerSecondPercent = Harmonic("second", "four");

    /// <summary>Third harmonic of the flicker.</summary>
    public static readonly NumberKey FlickerThirdPercent = Harmonic("third", "six");

    /// <summary>Level of a pulse-width lamp.</summary>
    public static readonly NumberKey PulseWidthLampNa = new()
    {
        Name = "ambient.pulse_width_lamp_na",
        Unit = "nA",
        Meaning = "Photocurrent of a pulse-width dimmed lamp while it is on.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 1e6,
        Default = 0,
    };

    /// <summary>Frequency of a pulse-width lamp.</summary>
    public static readonly NumberKey PulseWidthHz = new()
    {
        Name = "ambient.pulse_width_hz",
        Unit = "Hz",
        Meaning = "Switching frequency of the pulse-width lamp.",
        Source = "200 Hz to some kHz (common practice).",
        Minimum = 50,
        Maximum = 50000,
        Default = 487.3,
    };

    /// <summary>Duty of a pulse-width lamp.</summary>
    public static readonly NumberKey PulseWidthDutyPercent = new()
    {
        Name = "ambient.pulse_width_duty_percent",
        Unit = "%",
        Meaning = "Share of the time that the pulse-width lamp is on.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 1,
        Maximum = 99,
        Default = 40,
    };

    /// <summary>Every knob of ambient light.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        LevelNa, LevelLux, NaPerLux, FlickerPercent, FlickerSecondPercent, FlickerThirdPercent, .. AmbientChangeKeys.All,
        PulseWidthLampNa, PulseWidthHz, PulseWidthDutyPercent,
    ];

    /// <summary>The knobs that ambient light follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [.. All.OfType<NumberKey>().Where(k => k.IsLive)];

    private static NumberKey Harmonic(string which, string times) => new()
    {
        Name = $"ambient.flicker_{which}_percent",
        Unit = "%",
        Meaning = $"The {which} harmonic of the flicker, at {times} times the mains frequency, in percent of ambient.flicker_percent, in phase with it.",
        Source = "Lamps flicker at twice the mains frequency with harmonics (Wilkins, Veitch, Lehman, IEEE PAR1789 update, 2010); sizes: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 0,
    };
}
