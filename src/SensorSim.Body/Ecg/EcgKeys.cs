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
        Meaning = "QT interval at 60 bpm, QRS onset to T end; follows the cube root of the lagged RR interval (Fridericia).",
        Source = "Fridericia 1920; normal up to 450 to 460 ms (AHA/ACCF/HRS 2009, from memory).",
        IsLive = true,
        Minimum = 300,
        Maximum = 600,
        Default = 400,
    };

    /// <summary>Every knob of the ECG waves.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [PMv, QMv, RMv, SMv, TMv, PrMs, QrsMs, QtcMs];

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
