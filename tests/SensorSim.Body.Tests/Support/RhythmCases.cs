// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Support;

/// <summary>One body for every rhythm and kind of ectopy, and one that goes through all of them.</summary>
public static class RhythmCases
{
    /// <summary>Names of the cases.</summary>
    public static IEnumerable<string> Names =>
        [.. HeartKeys.Rhythm.Choices, "ventricular at random", "ventricular runs", "bigeminy", "interpolated", "atrial", "pauses", "R on T", "all in turn", "exercise", "after silence"];

    /// <summary>The knobs of a case.</summary>
    public static KeyValues Values(string name) => name switch
    {
        "ventricular at random" => Ventricular(20),
        "ventricular runs" => Ventricular(10).Set(EctopyKeys.VentricularGroup, 7),
        "bigeminy" => new KeyValues().Set(EctopyKeys.VentricularPattern, "bigeminy"),
        "interpolated" => Ventricular(20).Set(HeartKeys.RateBpm, 50).Set(EctopyKeys.VentricularPause, "interpolated").Set(EctopyKeys.VentricularCouplingPercent, 45),
        "atrial" => new KeyValues().Set(EctopyKeys.AtrialPattern, "random").Set(EctopyKeys.AtrialPercent, 30),
        "pauses" => new KeyValues().Set(HeartKeys.PauseS, 3.5).Set(HeartKeys.PauseEveryS, 15),
        "R on T" => Ventricular(30).Set(EctopyKeys.VentricularCouplingPercent, 36).Set(EctopyKeys.CouplingSpreadPercent, 4),
        "all in turn" => Ventricular(5).SetChanges(
            HeartKeys.Rhythm, [.. HeartKeys.Rhythm.Choices.Select((word, i) => (8.3 * (i + 1), word))]).Attach(HeartKeys.Beats, Script()),
        "exercise" => new KeyValues().SetChanges(
            HeartKeys.RateBpm,
            [new CourseChange(20, ChangeKind.Settle, 150, 30), new CourseChange(80, ChangeKind.Settle, 70, 55)],
            [new Oscillation(10, 100, 5, 12)]),
        "after silence" => new KeyValues().Set(EcgKeys.PrMs, 300).SetChanges(
            HeartKeys.Rhythm, [(5, "asystole"), (60, "sinus"), (75, "ventricular_fibrillation"), (100, "ventricular_tachycardia")]),
        "scripted" => new KeyValues().Set(HeartKeys.Rhythm, name).Attach(HeartKeys.Beats, Script()),
        _ => new KeyValues().Set(HeartKeys.Rhythm, name),
    };

    private static KeyValues Ventricular(double percent) =>
        new KeyValues().Set(EctopyKeys.VentricularPattern, "random").Set(EctopyKeys.VentricularPercent, percent);

    private static ScriptedBeat[] Script() =>
    [
        new(BeatClass.Normal, 0.8), new(BeatClass.Normal, 0.48), new(BeatClass.VentricularPremature, 1.12),
        new(BeatClass.AtrialPremature, 0.9), new(BeatClass.JunctionalEscape, 1.2), new(BeatClass.Paced, 0.9),
    ];
}
