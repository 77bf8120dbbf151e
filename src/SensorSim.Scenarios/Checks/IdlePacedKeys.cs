// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of pacing without a pacemaker, and of wide beats that never come; part of <see cref="IdleKeys"/>.</summary>
internal static class IdlePacedKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values)
    {
        string noPacemaker = IdleRhythmKeys.Never(values, "paced");
        string noPaced = noPacemaker.Length == 0 || Scripted(values).Contains(BeatClass.Paced) ? "" : "no beat is paced; set heart.rhythm = \"paced\"";
        string noSpike = IdleKeys.First(noPaced, IdleKeys.Without(values, PacingKeys.SpikeMv));
        yield return (VentricularKeys.PacingMode, noPacemaker);
        yield return (VentricularKeys.PacingRateBpm, noPacemaker);
        yield return (VentricularKeys.AvDelayMs, IdleKeys.First(noPacemaker, IdleKeys.Unless(values, VentricularKeys.PacingMode, "dual")));
        yield return (PacingKeys.SpikeMv, noPaced);
        yield return (PacingKeys.SpikeMs, noSpike);
        yield return (EcgKeys.PacedMv, noPaced);
        yield return (EcgKeys.PacedQrsMs, noPaced);
        yield return (EcgAmplifierKeys.PacingFlag, noSpike);
        string noVentricular = HasVentricular(values) ? "" : "no beat comes from the ventricles; set ectopy.ventricular_pattern or another heart.rhythm";
        yield return (EcgKeys.VentricularMv, noVentricular);
        yield return (EcgKeys.VentricularQrsMs, noVentricular);
    }

    private static bool HasVentricular(KeyValues values) => values.Course(HeartKeys.Rhythm).Words.Any(word => word switch
    {
        "sinus" => IdleRhythmKeys.WithoutBeats(values, EctopyKeys.VentricularPattern, EctopyKeys.VentricularPercent).Length == 0,
        "third_degree_block" => values[BlockKeys.Escape] == "ventricular",
        "ventricular_tachycardia" => true,
        "scripted" => Scripted(values).Any(b => b is BeatClass.VentricularPremature or BeatClass.VentricularRun or BeatClass.VentricularEscape or BeatClass.Wide),
        _ => false,
    });

    private static IEnumerable<BeatClass> Scripted(KeyValues values) => !values.Course(HeartKeys.Rhythm).Words.Contains("scripted") ? []
        : (values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.Beats) ?? values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile) ?? []).Select(b => b.Class);
}
