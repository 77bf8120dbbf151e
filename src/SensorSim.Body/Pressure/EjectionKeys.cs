// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>Knobs of the time between the QRS and the opening of the aortic valve.</summary>
public static class EjectionKeys
{
    /// <summary>Pre-ejection period at 60 bpm.</summary>
    public static readonly NumberKey PepMs = new()
    {
        Name = "ejection.pep_ms",
        Unit = "ms",
        Meaning = "Pre-ejection period from QRS onset at 60 bpm.",
        Source = "131 - 0.4 rate ms: 107 at 60 bpm (Weissler et al. 1968, from memory); usual range 50 to 120.",
        IsLive = true,
        Minimum = 50,
        Maximum = 200,
        Default = 107,
    };

    /// <summary>Slope of the pre-ejection period over rate.</summary>
    public static readonly NumberKey PepSlopeMsPerBpm = new()
    {
        Name = "ejection.pep_slope_ms_per_bpm",
        Unit = "ms/bpm",
        Meaning = "Change of the pre-ejection period with heart rate; the rate is held below 30 and above 180 bpm.",
        Source = "Weissler et al. 1968 (from memory).",
        Minimum = -1,
        Maximum = 0.5,
        Default = -0.4,
    };

    /// <summary>Shift by contractility.</summary>
    public static readonly NumberKey ContractilityMs = new()
    {
        Name = "ejection.contractility_ms",
        Unit = "ms",
        Meaning = "Shift of the pre-ejection period by drive of the heart; below 0 is a stronger drive and an earlier ejection.",
        Source = "Choice of this project; sympathetic drive shortens it (from memory).",
        IsLive = true,
        Minimum = -60,
        Maximum = 60,
        Default = 0,
    };

    /// <summary>Slow variation.</summary>
    public static readonly NumberKey PepVariationMs = new()
    {
        Name = "ejection.pep_variation_ms",
        Unit = "ms",
        Meaning = "Standard deviation of a slow variation of the pre-ejection period, with periods of 10 to 30 s, that no pressure explains.",
        Source = "1.6 to 12 ms within one person at rest (Kortekaas et al. 2018); periods: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 2,
    };

    /// <summary>Every knob of ejection.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [PepMs, PepSlopeMsPerBpm, ContractilityMs, PepVariationMs];
}
