// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Mains;

/// <summary>Knobs of the mains supply: one drifting frequency for ECG interference and lamp flicker.</summary>
public static class MainsKeys
{
    /// <summary>Mean mains frequency.</summary>
    public static readonly NumberKey FrequencyHz = new()
    {
        Name = "mains.frequency_hz",
        Unit = "Hz",
        Meaning = "Mean mains frequency; lamps flicker at twice this. Exactly 50 Hz would alias to nothing in 100 Hz slots.",
        Source = "50 or 60 Hz, normally within 0.2 Hz (from memory).",
        Minimum = 45,
        Maximum = 65,
        Default = 50.03,
    };

    /// <summary>Wander of the mains frequency.</summary>
    public static readonly NumberKey WanderHz = new()
    {
        Name = "mains.wander_hz",
        Unit = "Hz",
        Meaning = "Standard deviation of the slow wander of the mains frequency.",
        Source = "Choice of this project inside the 0.2 Hz above.",
        Minimum = 0,
        Maximum = 0.2,
        Default = 0.02,
    };

    /// <summary>Supply voltage.</summary>
    public static readonly NumberKey SupplyV = new()
    {
        Name = "mains.supply_v",
        Unit = "V",
        Meaning = "Mains voltage, root mean square; it enters the ECG where a capacitance couples it to body or leads.",
        Source = "230 V, 120 V (nominal).",
        Minimum = 100,
        Maximum = 250,
        Default = 230,
    };

    /// <summary>Second harmonic of the supply.</summary>
    public static readonly NumberKey SupplySecondPercent = Harmonic("second", 0.5, "At most 2 % (EN 50160, from memory); default: choice of this project.");

    /// <summary>Third harmonic of the supply.</summary>
    public static readonly NumberKey SupplyThirdPercent = Harmonic("third", 2, "At most 5 % (EN 50160, from memory); default: choice of this project.");

    /// <summary>Capacitance from the mains to the body.</summary>
    public static readonly NumberKey BodyCouplingPf = new()
    {
        Name = "mains.body_coupling_pf",
        Unit = "pF",
        Meaning = "Capacitance between mains wires and the body; it makes a common mode that electrodes and amplifier turn into signal. 0: off.",
        Source = "3 pF typical (Metting van Rijn et al., Med Biol Eng Comput 28:389, 1990).",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 0,
    };

    /// <summary>Capacitance from the body to earth.</summary>
    public static readonly NumberKey BodyEarthPf = new()
    {
        Name = "mains.body_earth_pf",
        Unit = "pF",
        Meaning = "Capacitance between the body and earth.",
        Source = "300 pF typical (Metting van Rijn et al., Med Biol Eng Comput 28:389, 1990).",
        Minimum = 10,
        Maximum = 10000,
        Default = 300,
    };

    /// <summary>Capacitance from the device to earth.</summary>
    public static readonly NumberKey DeviceEarthPf = new()
    {
        Name = "mains.device_earth_pf",
        Unit = "pF",
        Meaning = "Capacitance between the amplifier's ground and earth; large for a device on a cable, small for one worn on battery.",
        Source = "Some picofarads on battery, 100 to 1000 pF isolated on the mains (estimate); 1e7 stands for earthed.",
        Minimum = 0,
        Maximum = 1e7,
        Default = 20,
    };

    /// <summary>Capacitance from the mains to each lead.</summary>
    public static readonly NumberKey LeadCouplingPf = new()
    {
        Name = "mains.lead_coupling_pf",
        Unit = "pF",
        Meaning = "Capacitance between mains wires and each of the two leads; its current makes a voltage across unequal electrodes. 0: off.",
        Source = "Some nanoamperes into a lead (Huhta, Webster: IEEE Trans Biomed Eng 20:91, 1973, from memory): 0.1 pF give 7 nA (own arithmetic).",
        IsLive = true,
        Minimum = 0,
        Maximum = 10,
        Default = 0,
    };

    /// <summary>Depth of the modulation.</summary>
    public static readonly NumberKey ModulationPercent = new()
    {
        Name = "mains.modulation_percent",
        Unit = "%",
        Meaning = "How far the mains interference of the ECG swells and fades, as a person moves in the field; 100: down to nothing.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 0,
    };

    /// <summary>Frequency of the modulation.</summary>
    public static readonly NumberKey ModulationHz = new()
    {
        Name = "mains.modulation_hz",
        Unit = "Hz",
        Meaning = "How often it swells and fades.",
        Source = "Choice of this project: arms and legs move at about this rate.",
        Minimum = 0.01,
        Maximum = 10,
        Default = 0.5,
    };

    /// <summary>Every knob of the mains supply.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [
            FrequencyHz, WanderHz, SupplyV, SupplySecondPercent, SupplyThirdPercent, BodyCouplingPf, BodyEarthPf, DeviceEarthPf, LeadCouplingPf,
            ModulationPercent, ModulationHz,
        ];

    /// <summary>The knobs that the ECG follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [BodyCouplingPf, LeadCouplingPf, ModulationPercent];

    private static NumberKey Harmonic(string which, double value, string source) => new()
    {
        Name = $"mains.supply_{which}_percent",
        Unit = "%",
        Meaning = $"Size of the {which} harmonic of the supply voltage in percent of the fundamental.",
        Source = source,
        Minimum = 0,
        Maximum = 50,
        Default = value,
    };
}
