// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Rhythm;

/// <summary>Knobs of the ventricle's answer to atrial fibrillation and flutter.</summary>
public static class AtrialArrhythmiaKeys
{
    /// <summary>Irregularity of atrial fibrillation.</summary>
    public static readonly NumberKey FibrillationRrCvPercent = new()
    {
        Name = "fibrillation.rr_cv_percent",
        Unit = "%",
        Meaning = "Standard deviation of the RR intervals of atrial fibrillation in percent of their mean.",
        Source = "24 %: choice consistent with Hennig et al. 2006 and Alcaraz et al. 2008.",
        IsLive = true,
        Minimum = 5,
        Maximum = 60,
        Default = 24,
    };

    /// <summary>Conduction of atrial flutter.</summary>
    public static readonly ChoiceKey FlutterConduction = new()
    {
        Name = "flutter.conduction",
        Meaning = "How many flutter waves a beat takes.",
        Source = "2:1 gives about 150 bpm (common practice).",
        IsLive = true,
        Choices = ["2_to_1", "3_to_1", "4_to_1", "variable"],
        Default = "2_to_1",
    };

    /// <summary>Every knob of this section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [FibrillationRrCvPercent, FlutterConduction];
}
