// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of how the optical sensor lies on the skin.</summary>
public static class ContactKeys
{
    /// <summary>Contact.</summary>
    public static readonly NumberKey ContactPercent = new()
    {
        Name = "optics.contact_percent",
        Unit = "%",
        Meaning = "Share of the LEDs' light that the contact with the skin lets through; what is lost lets ambient light in. Below 5 the sensor has no contact; at 0 it sees ambient light only.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 100,
    };

    /// <summary>Ambient light without contact.</summary>
    public static readonly NumberKey LeakRatio = new()
    {
        Name = "optics.contact_leak_ratio",
        Unit = "",
        Meaning = "Ambient light without contact over that with full contact; in between on a straight line.",
        Source = "Housing and skin hold back most of the room's light; how much is unknown (choice of this project).",
        Minimum = 1,
        Maximum = 1000,
        Default = 10,
    };

    /// <summary>How often the sensor lifts off.</summary>
    public static readonly NumberKey LiftOffsPerHour = new()
    {
        Name = "optics.lift_offs_per_h",
        Unit = "1/h",
        Meaning = "Mean number of times an hour that the sensor lifts off the skin, all slots at the same instants; thinned from a candidate in every ten seconds.",
        Source = "Choice of this project.",
        Minimum = 0,
        Maximum = 360,
        Default = 0,
    };

    /// <summary>How long it stays off.</summary>
    public static readonly NumberKey LiftOffSeconds = new()
    {
        Name = "optics.lift_off_s",
        Unit = "s",
        Meaning = "Mean time that a lift-off lasts, each between half and one and a half of it, with the 0.1 s of leaving and of coming back.",
        Source = "Choice of this project.",
        Minimum = 0.5,
        Maximum = 60,
        Default = 3,
    };

    /// <summary>Contact pressure.</summary>
    public static readonly NumberKey PressureMmhg = new()
    {
        Name = "optics.contact_pressure_mmhg",
        Unit = "mmHg",
        Meaning = "Pressure of the sensor on the skin: the pulse is highest at 35 mmHg and gone from 140 on, and steady light grows as blood is pressed out; 0: not modelled, as at the best pressure. Arrival and its truth do not follow.",
        Source = "Best pulse at 35 to 48 mmHg, Sensors 21:8421, 2021; between 20 to 30 mmHg and diastolic, Sirkia, Biomed Eng Adv 7:100123, 2024; shape of the curve is a choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 250,
        Default = 0,
    };

    /// <summary>Every knob of contact.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [ContactPercent, LeakRatio, LiftOffsPerHour, LiftOffSeconds, PressureMmhg];
}
