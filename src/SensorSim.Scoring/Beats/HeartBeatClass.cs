// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Beats;

/// <summary>The five classes by which beat-by-beat scores are reported.</summary>
/// <remarks>
/// Source: ANSI/AAMI EC57, from memory. Escape beats of the junction, bundle branch blocks and beats conducted out of atrial fibrillation belong to the
/// normal class there; paced beats to the unknown one. Wide beats of an unknown source (<see cref="BeatClass.Wide"/>) are unknown here. Truth has no fusion beats.
/// </remarks>
public enum HeartBeatClass
{
    /// <summary>N: conducted normally, out of an atrial arrhythmia, or an escape beat of the junction.</summary>
    Normal,

    /// <summary>SVEB: premature beat from above the ventricles.</summary>
    SupraventricularEctopic,

    /// <summary>VEB: premature, in a run, or escape beat of the ventricle.</summary>
    VentricularEctopic,

    /// <summary>F: fusion of a ventricular and a normal beat.</summary>
    Fusion,

    /// <summary>Q: paced, wide from an unknown source, or without a class.</summary>
    Unknown,
}

/// <summary>The published mapping of classes of beats.</summary>
public static class HeartBeatClasses
{
    /// <summary>Every class, in order.</summary>
    public static IReadOnlyList<HeartBeatClass> All { get; } = Enum.GetValues<HeartBeatClass>();

    /// <summary>The class of a beat of truth.</summary>
    /// <param name="label">Its class in truth.</param>
    public static HeartBeatClass Of(BeatClass label) => label switch
    {
        BeatClass.Normal or BeatClass.AtrialArrhythmia or BeatClass.JunctionalEscape => HeartBeatClass.Normal,
        BeatClass.AtrialPremature => HeartBeatClass.SupraventricularEctopic,
        BeatClass.VentricularPremature or BeatClass.VentricularRun or BeatClass.VentricularEscape => HeartBeatClass.VentricularEctopic,
        _ => HeartBeatClass.Unknown,
    };

    /// <summary>Text form, for example <c>ventricular_ectopic</c>.</summary>
    /// <param name="heartBeatClass">The class.</param>
    public static string Text(this HeartBeatClass heartBeatClass) => heartBeatClass switch
    {
        HeartBeatClass.Normal => "normal",
        HeartBeatClass.SupraventricularEctopic => "supraventricular_ectopic",
        HeartBeatClass.VentricularEctopic => "ventricular_ectopic",
        HeartBeatClass.Fusion => "fusion",
        _ => "unknown",
    };
}

/// <summary>Beats of a class that were found and that were not. Extra detections have no class, so there is no positive predictivity.</summary>
/// <param name="Class">The class.</param>
/// <param name="Found">Beats found.</param>
/// <param name="Missed">Beats not found.</param>
public readonly record struct ClassCounts(HeartBeatClass Class, long Found, long Missed)
{
    /// <summary>Found / all [ratio]; null without a beat.</summary>
    public double? Sensitivity => Found + Missed == 0 ? null : (double)Found / (Found + Missed);
}
