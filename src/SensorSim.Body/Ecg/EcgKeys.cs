// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Knobs of the ECG waves.</summary>
public static class EcgKeys
{
    private const string Amplitudes = "Limb-lead amplitudes of the textbooks (from memory): P up to 0.25 mV, R 0.5 to 1.5 mV, T 0.1 to 0.5 mV.";

    /// <summary>Height of the P wave.</summary>
    public static readonly NumberKey PMv = Amplitude("ecg.p_mv", "P", 0.12);

    /// <summary>Height of the Q wave.</summary>
    public static readonly NumberKey QMv = Amplitude("ecg.q_mv", "Q", -0.12);

    /// <summary>Height of the R wave.</summary>
    public static readonly NumberKey RMv = Amplitude("ecg.r_mv", "R", 1.0);

    /// <summary>Height of the S wave.</summary>
    public static readonly NumberKey SMv = Amplitude("ecg.s_mv", "S", -0.2);

    /// <summary>Height of the T wave.</summary>
    public static readonly NumberKey TMv = Amplitude("ecg.t_mv", "T", 0.3);

    /// <summary>PR interval.</summary>
    public static readonly NumberKey PrMs = new()
    {
        Name = "ecg.pr_ms",
        Unit = "ms",
        Meaning = "PR interval at 60 bpm, P onset to QRS onset; shortens with the fourth root of the lagged RR interval.",
        Source = "120 to 200 ms is normal (textbook, from memory); the rate rule is a choice of this project.",
        IsLive = true,
        Minimum = 80,
        Maximum = 300,
        Default = 160,
    };

    /// <summary>QRS duration.</summary>
    public static readonly NumberKey QrsMs = new()
    {
        Name = "ecg.qrs_ms",
        Unit = "ms",
        Meaning = "QRS duration, onset of Q to end of S at 2 % of their peaks.",
        Source = "70 to 110 ms is normal, 120 ms and more is wide (AHA/ACCF/HRS recommendations 2009, from memory).",
        IsLive = true,
        Minimum = 40,
        Maximum = 220,
        Default = 90,
    };

    /// <summary>QT interval at 60 bpm.</summary>
    public static readonly NumberKey QtcMs = new()
    {
        Name = "ecg.qtc_ms",
        Unit = "ms",
        Meaning = "QT interval at 60 bpm, QRS onset to T end; follows the lagged RR interval by ecg.qt_rule.",
        Source = "Normal up to 450 to 460 ms (AHA/ACCF/HRS 2009, from memory).",
        IsLive = true,
        Minimum = 300,
        Maximum = 600,
        Default = 400,
    };

    /// <summary>How QT follows the RR interval.</summary>
    public static readonly ChoiceKey QtRule = new()
    {
        Name = "ecg.qt_rule",
        Meaning = "Formula by which QT follows the lagged RR interval; framingham and hodges are straight lines, held at 150 ms.",
        Source = "Bazett 1920, Fridericia 1920, Framingham (Sagie 1992), Hodges 1983.",
        Choices = ["fridericia", "bazett", "framingham", "hodges"],
        Default = "fridericia",
    };

    /// <summary>Preset of the heights.</summary>
    public static readonly ChoiceKey Shape = new()
    {
        Name = "ecg.shape",
        Meaning = "Heights of the waves where the scenario does not set them itself: T as high as R, or a QRS below 0.5 mV peak to peak.",
        Source = "Tall T: test of heart-rate meters, T up to 1.2 mV (IEC 60601-2-27, read in data sheets); low voltage: limb-lead limit 0.5 mV (from memory).",
        Choices = ["normal", "tall_t", "low_voltage"],
        Default = "normal",
    };

    /// <summary>How the electrodes are connected.</summary>
    public static readonly ChoiceKey Polarity = new()
    {
        Name = "ecg.polarity",
        Meaning = "Whether the two electrodes are swapped, which turns everything they see upside down.",
        Source = "Common practice.",
        Choices = ["normal", "swapped"],
        Default = "normal",
    };

    /// <summary>Breathing in the heights.</summary>
    public static readonly NumberKey RespiratoryAmplitudePercent = new()
    {
        Name = "ecg.respiratory_amplitude_percent",
        Unit = "%",
        Meaning = "Change of every wave's height at full inspiration (lower) and expiration (higher).",
        Source = "Modulation of the QRS used for ECG-derived respiration (Moody et al. 1985, from memory); range: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 50,
        Default = 0,
    };

    /// <summary>Breathing in the axis.</summary>
    public static readonly NumberKey RespiratoryAxisDeg = new()
    {
        Name = "ecg.respiratory_axis_deg",
        Unit = "°",
        Meaning = "Turn of the heart's axis at full inspiration, back at expiration; each wave changes by its own projection.",
        Source = "Some 10 degrees of turn with deep breathing (from memory); directions of the waves: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 30,
        Default = 0,
    };

    /// <summary>ST level.</summary>
    public static readonly NumberKey StLevelMv = new()
    {
        Name = "ecg.st_level_mv",
        Unit = "mV",
        Meaning = "Level of the ST segment by itself, 60 ms after the J point; beats with a wide QRS have none.",
        Source = "Point of measurement J + 60 ms: common practice of ST monitoring; elevation counts from 0.1 mV on (from memory).",
        IsLive = true,
        Minimum = -1,
        Maximum = 1,
        Default = 0,
    };

    /// <summary>Alternans of T.</summary>
    public static readonly NumberKey TAlternansUv = new()
    {
        Name = "ecg.t_alternans_uv",
        Unit = "µV",
        Meaning = "Difference of T's height from one beat to the next: every other beat half of it higher, the others lower.",
        Source = "Microvolt alternans counts from 1.9 µV on (spectral method, from memory); visible alternans is tenths of a mV.",
        IsLive = true,
        Minimum = 0,
        Maximum = 2000,
        Default = 0,
    };

    /// <summary>Main deflection of ventricular beats.</summary>
    public static readonly NumberKey VentricularMv =
        Deflection("ecg.ventricular_mv", "a premature ventricular beat; a ventricular escape has −0.7 of it", 1.5);

    /// <summary>QRS duration of ventricular beats.</summary>
    public static readonly NumberKey VentricularQrsMs = WideDuration("ecg.ventricular_qrs_ms", "ventricular beats and of beats with a blocked bundle", 150);

    /// <summary>Main deflection of paced beats.</summary>
    public static readonly NumberKey PacedMv = Deflection("ecg.paced_mv", "a beat paced in the ventricle, as leads II, III and aVF see it", -1.2);

    /// <summary>QRS duration of paced beats.</summary>
    public static readonly NumberKey PacedQrsMs = WideDuration("ecg.paced_qrs_ms", "paced beats", 160);

    /// <summary>Every knob of the ECG waves.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        PMv, QMv, RMv, SMv, TMv, PrMs, QrsMs, QtcMs, QtRule, Shape, Polarity, RespiratoryAmplitudePercent, RespiratoryAxisDeg, StLevelMv,
        TAlternansUv, VentricularMv, VentricularQrsMs, PacedMv, PacedQrsMs,
    ];

    private static NumberKey Deflection(string name, string beat, double value) => new()
    {
        Name = name,
        Unit = "mV",
        Meaning = $"Main deflection of the QRS of {beat}; T has 0.3 of it with the other sign.",
        Source = "Wide QRS with T of the other sign (textbooks, from memory); size: choice of this project.",
        IsLive = true,
        Minimum = -10,
        Maximum = 10,
        Default = value,
    };

    private static NumberKey WideDuration(string name, string beats, double value) => new()
    {
        Name = name,
        Unit = "ms",
        Meaning = $"QRS duration of {beats}, onset to end at 2 % of the outer waves' peaks.",
        Source = "120 ms and more is wide (AHA/ACCF/HRS recommendations 2009, from memory); ventricular beats 140 to 200 ms (common practice).",
        IsLive = true,
        Minimum = 100,
        Maximum = 260,
        Default = value,
    };

    private static NumberKey Amplitude(string name, string wave, double value) => new()
    {
        Name = name,
        Unit = "mV",
        Meaning = $"Height of the {wave} wave by itself; negative points down.",
        Source = Amplitudes,
        IsLive = true,
        Minimum = -10,
        Maximum = 10,
        Default = value,
    };
}
