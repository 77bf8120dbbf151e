// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of premature beats that never come, and of rhythms that the heart is never in; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleRhythmKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values) => Ectopy(values).Concat(Rhythms(values));

    private static IEnumerable<(KeyDefinition Key, string Why)> Ectopy(KeyValues values)
    {
        string ventricular = WithoutBeats(values, EctopyKeys.VentricularPattern, EctopyKeys.VentricularPercent);
        string atrial = WithoutBeats(values, EctopyKeys.AtrialPattern, EctopyKeys.AtrialPercent);
        yield return (EctopyKeys.VentricularPercent, NeverRandom(values, EctopyKeys.VentricularPattern));
        yield return (EctopyKeys.VentricularCouplingPercent, ventricular);
        yield return (EctopyKeys.VentricularGroup, ventricular);
        Course group = values.Course(EctopyKeys.VentricularGroup);
        yield return (EctopyKeys.VentricularPause, ventricular.Length > 0 || group.Lowest < 2 ? ventricular : $"{EctopyKeys.VentricularGroup.Name} is never 1");
        yield return (EctopyKeys.GroupRateBpm, ventricular.Length > 0 || group.Highest >= 2 ? ventricular : $"{EctopyKeys.VentricularGroup.Name} is 1");
        yield return (EctopyKeys.AtrialPercent, NeverRandom(values, EctopyKeys.AtrialPattern));
        yield return (EctopyKeys.AtrialCouplingPercent, atrial);
        yield return (EctopyKeys.AtrialResetPercent, atrial);
        yield return (EctopyKeys.CouplingSpreadPercent, ventricular.Length > 0 && atrial.Length > 0 ? $"{ventricular}, and {atrial}" : "");
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Rhythms(KeyValues values)
    {
        string[] words = [.. values.Course(HeartKeys.Rhythm).Words];
        string fibrillation = Never("atrial_fibrillation");
        yield return (AtrialArrhythmiaKeys.FibrillationRrCvPercent, fibrillation);
        yield return (AtrialKeys.FibrillationMv, fibrillation);
        yield return (AtrialKeys.FibrillationHz, fibrillation.Length > 0 ? fibrillation : IdleKeys.Without(values, AtrialKeys.FibrillationMv));
        string flutter = Never("atrial_flutter");
        yield return (AtrialArrhythmiaKeys.FlutterConduction, flutter);
        yield return (AtrialKeys.FlutterRatePerMin, flutter);
        yield return (AtrialKeys.FlutterMv, flutter);
        string ventricular = Never("ventricular_fibrillation");
        yield return (VentricularFibrillationKeys.WaveHz, ventricular);
        yield return (VentricularFibrillationKeys.WaveMv, ventricular);
        yield return (VentricularFibrillationKeys.DecaySeconds, ventricular);

        string Never(string word) => words.Contains(word) ? "" : $"{HeartKeys.Rhythm.Name} is never \"{word}\"";
    }

    private static string WithoutBeats(KeyValues values, ChoiceKey pattern, NumberKey percent)
    {
        string[] words = [.. values.Course(pattern).Words.Where(w => w != "none")];
        return words.Length == 0 ? $"{pattern.Name} is \"none\"" : words is ["random"] ? IdleKeys.Without(values, percent) : "";
    }

    private static string NeverRandom(KeyValues values, ChoiceKey pattern) =>
        values.Course(pattern).Words.Contains("random") ? "" : $"{pattern.Name} is never \"random\"";
}
