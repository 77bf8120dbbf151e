// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>Knobs of the arterial pressure.</summary>
public static class PressureKeys
{
    /// <summary>Diastolic pressure.</summary>
    public static readonly NumberKey DiastolicMmhg = new()
    {
        Name = "pressure.diastolic_mmhg",
        Unit = "mmHg",
        Meaning = "Diastolic pressure by day, before the waves, the fall at night and the drift; up speeds the pulse wave.",
        Source = "80 at rest (textbook value, from memory); 30 to 160 as the plausible range of recordings.",
        IsLive = true,
        Minimum = 30,
        Maximum = 160,
        Default = 80,
    };

    /// <summary>Pulse pressure.</summary>
    public static readonly NumberKey PulsePressureMmhg = new()
    {
        Name = "pressure.pulse_pressure_mmhg",
        Unit = "mmHg",
        Meaning = "Systolic less diastolic pressure; systolic follows diastolic at this distance.",
        Source = "40 at rest (textbook value, from memory); above 10 in plausible recordings.",
        IsLive = true,
        Minimum = 10,
        Maximum = 130,
        Default = 40,
    };

    /// <summary>Respiratory wave.</summary>
    public static readonly NumberKey RespiratoryMmhg = new()
    {
        Name = "pressure.respiratory_mmhg",
        Unit = "mmHg",
        Meaning = "Peak-to-peak wave of the pressure at the breathing phase; inspiration lowers it.",
        Source = "2 to 6 mmHg; above 10 is a paradoxical pulse (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 3,
    };

    /// <summary>Mayer wave.</summary>
    public static readonly NumberKey MayerMmhg = new()
    {
        Name = "pressure.mayer_mmhg",
        Unit = "mmHg",
        Meaning = "Mean crest-to-trough size of the random waves of the pressure near 0.1 Hz.",
        Source = "Near 0.1 Hz: Julien, Cardiovasc Res 70:12, 2006; 2 to 6 mmHg (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 3,
    };

    /// <summary>Fall at night.</summary>
    public static readonly NumberKey CircadianDipPercent = new()
    {
        Name = "pressure.circadian_dip_percent",
        Unit = "%",
        Meaning = "How far diastolic and pulse pressure fall from day to night; 0 is off.",
        Source = "11 systolic and 8 mmHg diastolic in healthy men (Morris et al. 2013); a fall above 10 % is usual (Viera et al. 2011).",
        Minimum = 0,
        Maximum = 30,
        Default = 0,
    };

    /// <summary>Clock time at the start.</summary>
    public static readonly NumberKey TimeOfDayH = new()
    {
        Name = "pressure.time_of_day_h",
        Unit = "h",
        Meaning = "Clock time at the start of the scenario; only the fall at night asks for it.",
        Source = "Choice of this project.",
        Minimum = 0,
        Maximum = 24,
        Default = 10,
    };

    /// <summary>Drift.</summary>
    public static readonly NumberKey DriftMmhgPerWeek = new()
    {
        Name = "pressure.drift_mmhg_per_week",
        Unit = "mmHg/week",
        Meaning = "Gradual change of the diastolic pressure from the start on; systolic follows.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = -20,
        Maximum = 20,
        Default = 0,
    };

    /// <summary>Every knob of the pressure.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [DiastolicMmhg, PulsePressureMmhg, RespiratoryMmhg, MayerMmhg, CircadianDipPercent, TimeOfDayH, DriftMmhgPerWeek];
}
