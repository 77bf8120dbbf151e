// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of the LEDs, the photodiode, its amplifier and converter.</summary>
public static class OpticsKeys
{
    /// <summary>LED current at which the knobs of the light levels hold [mA].</summary>
    public const double ReferenceMa = 10;

    /// <summary>Sampling rate.</summary>
    public static readonly NumberKey RateHz = new()
    {
        Name = "optics.rate_hz",
        Unit = "Hz",
        Meaning = "Sampling rate of every slot: red, infrared, green if there is any, dark.",
        Source = "25 to 500 Hz (common practice).",
        IsWhole = true,
        Minimum = 20,
        Maximum = 1000,
        Default = 100,
    };

    /// <summary>Bits of the converter.</summary>
    public static readonly NumberKey Bits = new()
    {
        Name = "optics.bits",
        Unit = "bit",
        Meaning = "Word length of the converter, unsigned.",
        Source = "16 to 22 bit, oversampled or integrating (common practice).",
        IsWhole = true,
        Minimum = 8,
        Maximum = 24,
        Default = 18,
    };

    /// <summary>Full scale.</summary>
    public static readonly NumberKey FullScaleNa = new()
    {
        Name = "optics.full_scale_na",
        Unit = "nA",
        Meaning = "Photocurrent of full scale, one step above the highest code.",
        Source = "Photocurrents of 0.1 to 10 µA (common practice).",
        Minimum = 10,
        Maximum = 1e6,
        Default = 4096,
    };

    /// <summary>Zero of the converter.</summary>
    public static readonly NumberKey ZeroPercent = new()
    {
        Name = "optics.zero_percent",
        Unit = "%",
        Meaning = "Code of no light, in percent of all codes: room below zero, so that noise of a dark slot is not cut off.",
        Source = "Choice of this project; front ends offset or sign their codes for the same reason (common practice).",
        Minimum = 0,
        Maximum = 50,
        Default = 1,
    };

    /// <summary>Red light level.</summary>
    public static readonly NumberKey RedNa = Level("red", 1500);

    /// <summary>Infrared light level.</summary>
    public static readonly NumberKey InfraredNa = Level("infrared", 2000);

    /// <summary>Green light level.</summary>
    public static readonly NumberKey GreenNa = Level("green", 0) with
    {
        Meaning = "Photocurrent of the green slot at the foot of the pulse at an LED current of 10 mA, without ambient light; 0 throughout: no green slot and no green channel.",
    };

    /// <summary>Red LED current.</summary>
    public static readonly NumberKey RedMa = Current("red");

    /// <summary>Infrared LED current.</summary>
    public static readonly NumberKey InfraredMa = Current("infrared");

    /// <summary>Green LED current.</summary>
    public static readonly NumberKey GreenMa = Current("green");

    /// <summary>Settling of settings.</summary>
    public static readonly NumberKey SettlingMs = new()
    {
        Name = "optics.settling_ms",
        Unit = "ms",
        Meaning = "Time constant with which the light follows a change of LED current, pulse width or gain while running, first order from the sample before on; 0: at once.",
        Source = "Choice of this project.",
        Minimum = 0,
        Maximum = 1000,
        Default = 0,
    };

    /// <summary>Time between slots.</summary>
    public static readonly NumberKey SlotSpacingUs = new()
    {
        Name = "optics.slot_spacing_us",
        Unit = "µs",
        Meaning = "Time from one slot to the next: red, infrared, green if there is any, dark; ambient light changes in between.",
        Source = "Choice of this project; slots of some 100 µs are common practice.",
        Minimum = 10,
        Maximum = 5000,
        Default = 250,
    };

    /// <summary>Integration time of a slot.</summary>
    public static readonly NumberKey IntegrationUs = new()
    {
        Name = "optics.integration_us",
        Unit = "µs",
        Meaning = "Time over which a slot gathers light; its middle is the sampling instant.",
        Source = "50 to 120 µs is usual (common practice).",
        Minimum = 5,
        Maximum = 1000,
        Default = 100,
    };

    /// <summary>Light of the slot before.</summary>
    public static readonly NumberKey CrosstalkPercent = new()
    {
        Name = "optics.crosstalk_percent",
        Unit = "%",
        Meaning = "Share of the LED light of the slot before, in the same sample, that a slot still sees; the dark slot too, the first slot none.",
        Source = "Amplifiers settle in some 5 to 50 µs, against slots of some 100 µs (own arithmetic); none when slots are far apart.",
        Minimum = 0,
        Maximum = 50,
        Default = 0,
    };

    /// <summary>Rail of the amplifier.</summary>
    public static readonly NumberKey AmplifierFullNa = new()
    {
        Name = "optics.amplifier_full_na",
        Unit = "nA",
        Meaning = "Photocurrent of LED and ambient light together at which the photodiode's amplifier saturates at gain 1; the slot stays there and is flagged; 0: never.",
        Source = "1 V over 100 kohm to 1 Mohm: 1 to 10 µA (own arithmetic).",
        Minimum = 0,
        Maximum = 1e7,
        Default = 0,
    };

    /// <summary>White noise as a current.</summary>
    public static readonly NumberKey WhiteNoiseNaRms = new()
    {
        Name = "optics.white_noise_na_rms",
        Unit = "nA",
        Meaning = "White noise of every slot at the converter, root mean square over 0 to half the sampling rate.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = 0,
    };

    /// <summary>White noise as a distance from the pulse.</summary>
    public static readonly NumberKey WhiteNoiseSnrDb = new()
    {
        Name = "optics.white_noise_snr_db",
        Unit = "dB",
        Meaning = "White noise of every lit slot, each by its own pulse: 20 log10 of (foot-to-peak light / 2√2) over rms; not given: no such noise.",
        Source = "Optical signal-to-noise ratio as this project defines it.",
        IsLive = true,
        Minimum = -20,
        Maximum = 120,
        Default = 120,
        HasDefault = false,
    };

    /// <summary>Movement artefact.</summary>
    public static readonly NumberKey MovementArtefactRatio = new()
    {
        Name = "optics.movement_artefact_ratio",
        Unit = "",
        Meaning = "Artefact of movement in the absorbance, equal in all colours: rms over (infrared pulse height / 2√2) in the steady gait that occurs first, as it is before the first change (walking if none does); all other movement in proportion.",
        Source = "1 to 10 times the pulse at the wrist (from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 0,
    };

    /// <summary>Every knob of the optics.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        RateHz, Bits, FullScaleNa, ZeroPercent, RedNa, InfraredNa, GreenNa, RedMa, InfraredMa, GreenMa, SettlingMs, SlotSpacingUs, IntegrationUs,
        CrosstalkPercent, AmplifierFullNa, WhiteNoiseNaRms, WhiteNoiseSnrDb, .. OpticalNoiseKeys.All, MovementArtefactRatio, .. TissueArtefactKeys.All, .. ContactKeys.All,
        .. LevelControlKeys.All,
    ];

    private static NumberKey Current(string colour) => new()
    {
        Name = $"optics.{colour}_ma",
        Unit = "mA",
        Meaning = $"LED current of the {colour} slot at the start; the photocurrent is in proportion to it, optics.{colour}_na at 10 mA.",
        Source = "Peak currents of 1 to 100 mA (common practice); light in proportion to current is a simplification.",
        Minimum = 0,
        Maximum = 200,
        Default = ReferenceMa,
    };

    private static NumberKey Level(string colour, double value) => new()
    {
        Name = $"optics.{colour}_na",
        Unit = "nA",
        Meaning = $"Photocurrent of the {colour} slot at the foot of the pulse at an LED current of 10 mA, without ambient light.",
        Source = "Photocurrents of 0.1 to 10 µA (common practice).",
        IsLive = true,
        Minimum = 0,
        Maximum = 1e6,
        Default = value,
    };
}
