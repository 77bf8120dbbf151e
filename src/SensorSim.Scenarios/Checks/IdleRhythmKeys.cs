// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of premature beats and pauses that never come, and of rhythms that the heart is never in; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleRhythmKeys
{
    private const string SecondDegree = "second_degree_block";
    private static readonly string[] s_bySinusNode =
        ["sinus", "second_degree_block_type_1", "second_degree_block_type_2", "third_degree_block", "ventricular_tachycardia"];

    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values) =>
        Sinus(values).Concat(Ectopy(values)).Concat(Blocks(values)).Concat(Arrhythmias(values));

    /// <summary>Why a rhythm never comes; empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="word">The rhythm.</param>
    public static string Never(KeyValues values, string word) =>
        values.Course(HeartKeys.Rhythm).Words.Contains(word) ? "" : $"{HeartKeys.Rhythm.Name} is never \"{word}\"; set that rhythm";

    /// <summary>Why no premature beat of a kind comes; empty where one does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="pattern">Pattern of the kind.</param>
    /// <param name="percent">Share of the random pattern.</param>
    public static string WithoutBeats(KeyValues values, ChoiceKey pattern, NumberKey percent) =>
        values.Course(pattern).Words.All(w => w == "none") ? $"{pattern.Name} is \"none\"; set another" : NoneAtRandom(values, pattern, percent);

    private static IEnumerable<(KeyDefinition Key, string Why)> Sinus(KeyValues values)
    {
        string noNode = values.Course(HeartKeys.Rhythm).Words.Any(w => s_bySinusNode.Contains(w)) ? ""
            : $"the sinus node is silent in {HeartKeys.Rhythm.Name} = \"{values[HeartKeys.Rhythm]}\"; set \"sinus\"";
        string noSinus = Never(values, "sinus");
        foreach (NumberKey key in (NumberKey[])[
            HeartKeys.RespiratoryVariabilityMs, HeartKeys.SlowVariabilityMs, HeartKeys.DriftVariabilityMs, HeartKeys.SdnnMs, HeartKeys.RmssdMs, HeartKeys.LfHf])
        {
            yield return (key, noNode);
        }

        string noSlow = values.IsSet(HeartKeys.SdnnMs) ? "" : IdleKeys.Without(values, HeartKeys.SlowVariabilityMs);
        yield return (HeartKeys.SlowFrequencyHz, IdleKeys.First(noNode, noSlow));
        yield return (HeartKeys.PauseS, noSinus);
        yield return (HeartKeys.PauseEveryS, IdleKeys.First(noSinus, IdleKeys.Without(values, HeartKeys.PauseS)));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Ectopy(KeyValues values)
    {
        string ventricular = WithoutBeats(values, EctopyKeys.VentricularPattern, EctopyKeys.VentricularPercent);
        string atrial = WithoutBeats(values, EctopyKeys.AtrialPattern, EctopyKeys.AtrialPercent);
        yield return (EctopyKeys.VentricularPattern, NoneAtRandom(values, EctopyKeys.VentricularPattern, EctopyKeys.VentricularPercent));
        yield return (EctopyKeys.VentricularPercent, NeverRandom(values, EctopyKeys.VentricularPattern));
        yield return (EctopyKeys.VentricularCouplingPercent, ventricular);
        yield return (EctopyKeys.VentricularGroup, ventricular);
        Course group = values.Course(EctopyKeys.VentricularGroup);
        yield return (EctopyKeys.VentricularPause, ventricular.Length > 0 || group.Lowest < 2 ? ventricular : $"{EctopyKeys.VentricularGroup.Name} is never 1; set it to 1");
        yield return (EctopyKeys.GroupRateBpm, ventricular.Length > 0 || group.Highest >= 2 ? ventricular : $"{EctopyKeys.VentricularGroup.Name} is 1; set more");
        yield return (EctopyKeys.AtrialPattern, NoneAtRandom(values, EctopyKeys.AtrialPattern, EctopyKeys.AtrialPercent));
        yield return (EctopyKeys.AtrialPercent, NeverRandom(values, EctopyKeys.AtrialPattern));
        yield return (EctopyKeys.AtrialCouplingPercent, atrial);
        yield return (EctopyKeys.AtrialResetPercent, atrial);
        yield return (EctopyKeys.CouplingSpreadPercent, ventricular.Length > 0 && atrial.Length > 0 ? "no premature beat comes; set a pattern of ectopy, and its share if it is random" : "");
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Blocks(KeyValues values)
    {
        bool isSecond = values.Course(HeartKeys.Rhythm).Words.Any(w => w.StartsWith(SecondDegree, StringComparison.Ordinal));
        string third = Never(values, "third_degree_block");
        yield return (BlockKeys.PWavesPerCycle, isSecond ? "" : $"{HeartKeys.Rhythm.Name} is never a {SecondDegree}; set type_1 or type_2");

        // A cycle of two has one PR interval, which nothing comes after.
        yield return (BlockKeys.PrIncrementMs, IdleKeys.First(
            Never(values, "second_degree_block_type_1"), values.Course(BlockKeys.PWavesPerCycle).Highest < 3 ? $"{BlockKeys.PWavesPerCycle.Name} is 2; set 3 or more" : ""));
        yield return (BlockKeys.Escape, third);
        yield return (BlockKeys.EscapeRateBpm, third);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Arrhythmias(KeyValues values)
    {
        string fibrillation = Never(values, "atrial_fibrillation");
        yield return (AtrialArrhythmiaKeys.FibrillationRrCvPercent, fibrillation);
        yield return (AtrialKeys.FibrillationMv, fibrillation);
        yield return (AtrialKeys.FibrillationHz, IdleKeys.First(fibrillation, IdleKeys.Without(values, AtrialKeys.FibrillationMv)));
        string flutter = Never(values, "atrial_flutter");
        yield return (AtrialArrhythmiaKeys.FlutterConduction, flutter);
        yield return (AtrialKeys.FlutterRatePerMin, flutter);
        yield return (AtrialKeys.FlutterMv, flutter);
        string ventricular = Never(values, "ventricular_fibrillation");
        yield return (VentricularFibrillationKeys.WaveHz, ventricular);
        yield return (VentricularFibrillationKeys.WaveMv, ventricular);
        yield return (VentricularFibrillationKeys.DecaySeconds, ventricular);
        string tachycardia = Never(values, "ventricular_tachycardia");
        yield return (VentricularKeys.TachycardiaRateBpm, tachycardia);
        yield return (VentricularKeys.TachycardiaPulsePercent, tachycardia);
    }

    private static string NoneAtRandom(KeyValues values, ChoiceKey pattern, NumberKey percent)
    {
        string[] words = [.. values.Course(pattern).Words.Where(w => w != "none")];
        return words is ["random"] ? IdleKeys.Without(values, percent) : "";
    }

    private static string NeverRandom(KeyValues values, ChoiceKey pattern) =>
        values.Course(pattern).Words.Contains("random") ? "" : $"{pattern.Name} is never \"random\"; set that pattern";
}
