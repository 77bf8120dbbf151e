// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Knobs of the electrodes of the ECG: impedance, half-cell voltage, contact.</summary>
public static class ElectrodeKeys
{
    private const string Own = "Choice of this project.";

    /// <summary>Impedance of the electrode on the positive input.</summary>
    public static readonly NumberKey ImpedancePositiveKohm = Impedance("positive", "electrode on the positive input", 30);

    /// <summary>Impedance of the electrode on the negative input.</summary>
    public static readonly NumberKey ImpedanceNegativeKohm = Impedance("negative", "electrode on the negative input", 20);

    /// <summary>Impedance of the third electrode.</summary>
    public static readonly NumberKey ImpedanceThirdKohm = Impedance("third", "third electrode", 30);

    /// <summary>Third electrode.</summary>
    public static readonly ChoiceKey Third = new()
    {
        Name = "electrodes.third",
        Meaning = "Third electrode: it drives the body against its common mode, ties it to the amplifier's ground, or is not there.",
        Source = "Webster, Medical Instrumentation (from memory); two-electrode wearables have none (common practice).",
        Choices = ["driven", "passive", "none"],
        Default = "driven",
    };

    /// <summary>Loop gain of a driven third electrode.</summary>
    public static readonly NumberKey DriveGainDb = new()
    {
        Name = "electrodes.drive_gain_db",
        Unit = "dB",
        Meaning = "Loop gain with which a driven third electrode takes the common mode down, at mains frequency.",
        Source = "10 to 50 dB over grounding (textbook, from memory).",
        Minimum = 0,
        Maximum = 100,
        Default = 40,
    };

    /// <summary>Half-cell voltage.</summary>
    public static readonly NumberKey OffsetMv = new()
    {
        Name = "electrodes.offset_mv",
        Unit = "mV",
        Meaning = "Difference of the half-cell voltages of the two electrodes.",
        Source = "Amplifiers must bear 300 mV of either sign (IEC 60601-2-25 and -27, from memory).",
        IsLive = true,
        Minimum = -300,
        Maximum = 300,
        Default = 0,
    };

    /// <summary>Drift of the half-cell voltage.</summary>
    public static readonly NumberKey OffsetDriftUvPerS = new()
    {
        Name = "electrodes.offset_drift_uv_per_s",
        Unit = "µV/s",
        Meaning = "How fast the half-cell voltage drifts away from its offset; what has gathered turns round at 300 mV of either sign.",
        Source = "Fresh electrodes drift by some microvolts a second (common practice); 10 µV/s are allowed (ANSI/AAMI EC11, read in data sheets).",
        IsLive = true,
        Minimum = -1000,
        Maximum = 1000,
        Default = 0,
    };

    /// <summary>Rate of steps of the half-cell voltage.</summary>
    public static readonly NumberKey StepsPerMin = new()
    {
        Name = "electrodes.steps_per_min",
        Unit = "1/min",
        Meaning = "Mean rate of steps of the half-cell voltage, when an electrode shifts on the skin.",
        Source = Own,
        IsLive = true,
        Minimum = 0,
        Maximum = 60,
        Default = 0,
    };

    /// <summary>Size of a step.</summary>
    public static readonly NumberKey StepMvRms = new()
    {
        Name = "electrodes.step_mv_rms",
        Unit = "mV",
        Meaning = "Size of a step, root mean square of a normal distribution about 0.",
        Source = "Stretched skin gives artefacts of millivolts (de Talhouet, Webster: Physiol Meas 17:81, 1996).",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 0.5,
    };

    /// <summary>Recovery from a step.</summary>
    public static readonly NumberKey StepRecoveryS = new()
    {
        Name = "electrodes.step_recovery_s",
        Unit = "s",
        Meaning = "Time constant with which the half-cell voltage returns after a step.",
        Source = Own,
        Minimum = 0.1,
        Maximum = 600,
        Default = 5,
    };

    /// <summary>Rate of pops.</summary>
    public static readonly NumberKey PopsPerMin = new()
    {
        Name = "electrodes.pops_per_min",
        Unit = "1/min",
        Meaning = "Mean rate of pops: sudden jumps of the contact that die away within a beat.",
        Source = "Contact artefacts last 100 to 500 ms (Friesen et al., IEEE Trans Biomed Eng 37:85, 1990, from memory); rate: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 120,
        Default = 0,
    };

    /// <summary>Size of a pop.</summary>
    public static readonly NumberKey PopMvRms = new()
    {
        Name = "electrodes.pop_mv_rms",
        Unit = "mV",
        Meaning = "Size of a pop, root mean square of a normal distribution about 0.",
        Source = "Up to full scale (Friesen et al., IEEE Trans Biomed Eng 37:85, 1990, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 100,
        Default = 1,
    };

    /// <summary>Decay of a pop.</summary>
    public static readonly NumberKey PopDecayMs = new()
    {
        Name = "electrodes.pop_decay_ms",
        Unit = "ms",
        Meaning = "Time constant with which a pop dies away.",
        Source = "100 to 500 ms in all (Friesen et al., IEEE Trans Biomed Eng 37:85, 1990, from memory).",
        Minimum = 1,
        Maximum = 2000,
        Default = 100,
    };

    /// <summary>Electrode that is off.</summary>
    public static readonly ChoiceKey Off = new()
    {
        Name = "electrodes.off",
        Meaning = "Electrode that has no contact: its input goes to the rail and the ECG is gone; without the third only the mains grows.",
        Source = "Amplifiers find lead-off by a small current that drives an open input to its rail (common practice).",
        IsLive = true,
        Choices = ["none", "positive", "negative", "third"],
        Default = "none",
    };

    /// <summary>Rate of random losses of contact.</summary>
    public static readonly NumberKey ContactLossPerH = new()
    {
        Name = "electrodes.contact_loss_per_h",
        Unit = "1/h",
        Meaning = "Mean rate at which each electrode loses contact by itself.",
        Source = Own,
        IsLive = true,
        Minimum = 0,
        Maximum = 600,
        Default = 0,
    };

    /// <summary>Length of a random loss of contact.</summary>
    public static readonly NumberKey ContactLossS = new()
    {
        Name = "electrodes.contact_loss_s",
        Unit = "s",
        Meaning = "Mean length of such a loss; lengths are exponentially distributed.",
        Source = Own,
        IsLive = true,
        Minimum = 0.1,
        Maximum = 600,
        Default = 3,
    };

    /// <summary>Time constant to the rail.</summary>
    public static readonly NumberKey RailMs = new()
    {
        Name = "electrodes.rail_ms",
        Unit = "ms",
        Meaning = "Time constant with which an open input goes to the rail.",
        Source = "Some nanoamperes into some hundred picofarads move a volt in tens of milliseconds (own arithmetic).",
        Minimum = 1,
        Maximum = 10000,
        Default = 50,
    };

    /// <summary>Time of an overload.</summary>
    public static readonly NumberKey OverloadAtS = new()
    {
        Name = "electrodes.overload_at_s",
        Unit = "s",
        Meaning = "Body time of one overload like that of a defibrillation pulse; not set: none.",
        Source = Own,
        HasDefault = false,
        Minimum = 0,
        Maximum = 3e7,
        Default = 30,
    };

    /// <summary>Rate of random overloads.</summary>
    public static readonly NumberKey OverloadPerH = new()
    {
        Name = "electrodes.overload_per_h",
        Unit = "1/h",
        Meaning = "Mean rate of further overloads at random times.",
        Source = Own,
        IsLive = true,
        Minimum = 0,
        Maximum = 60,
        Default = 0,
    };

    /// <summary>Size of an overload.</summary>
    public static readonly NumberKey OverloadMv = new()
    {
        Name = "electrodes.overload_mv",
        Unit = "mV",
        Meaning = "Voltage between the electrodes right after an overload; the amplifier is blocked while it exceeds the input range.",
        Source = "1 V of 1 s is a usual overload test of monitors (common practice, from memory).",
        Minimum = -5000,
        Maximum = 5000,
        Default = 1000,
    };

    /// <summary>Recovery from an overload.</summary>
    public static readonly NumberKey OverloadRecoveryS = new()
    {
        Name = "electrodes.overload_recovery_s",
        Unit = "s",
        Meaning = "Time constant with which the electrodes lose that voltage.",
        Source = "At most 100 mV may be left after 5 s (limit for disposable electrodes, ANSI/AAMI EC12, from memory); default: choice of this project.",
        Minimum = 0.01,
        Maximum = 60,
        Default = 1,
    };

    /// <summary>Every knob of the electrodes.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [
            ImpedancePositiveKohm, ImpedanceNegativeKohm, ImpedanceThirdKohm, Third, DriveGainDb, OffsetMv, OffsetDriftUvPerS,
            StepsPerMin, StepMvRms, StepRecoveryS, PopsPerMin, PopMvRms, PopDecayMs,
            Off, ContactLossPerH, ContactLossS, RailMs, OverloadAtS, OverloadPerH, OverloadMv, OverloadRecoveryS,
        ];

    /// <summary>The knobs that the ECG follows while it is made; <see cref="Off"/> acts at samples of its own.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [.. All.OfType<NumberKey>().Where(k => k.IsLive)];

    private static NumberKey Impedance(string which, string words, double value) => new()
    {
        Name = $"electrodes.impedance_{which}_kohm",
        Unit = "kΩ",
        Meaning = $"Impedance of the {words} at mains frequency, skin included; it matters where mains couples in.",
        Source = "Gel on sanded skin 1.5 to 3.25 kΩ, on bare skin 50 to 100 times as much (J Electrocardiol 11:23, 1978); default: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = value,
    };
}
