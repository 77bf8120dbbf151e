// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Rhythm;

/// <summary>Knobs of the rhythm.</summary>
public static class HeartKeys
{
    /// <summary>Rhythm.</summary>
    public static readonly ChoiceKey Rhythm = new()
    {
        Name = "heart.rhythm",
        Meaning = "The rhythm; ectopic beats and pauses come on top by knobs of their own.",
        Source = "Names of the trade.",
        IsLive = true,
        Choices =
        [
            "sinus", "atrial_fibrillation", "atrial_flutter", "second_degree_block_type_1", "second_degree_block_type_2",
            "third_degree_block", "ventricular_tachycardia", "ventricular_fibrillation", "asystole", "paced", "scripted",
        ],
        Default = "sinus",
    };

    /// <summary>Mean heart rate.</summary>
    public static readonly NumberKey RateBpm = new()
    {
        Name = "heart.rate_bpm",
        Unit = "bpm",
        Meaning = "Mean heart rate: 60 over the mean RR interval in seconds.",
        Source = "Range of heart-rate meters (IEC 60601-2-27, from memory) widened; default: choice of this project.",
        IsLive = true,
        Minimum = 20,
        Maximum = 250,
        Default = 65,
    };

    /// <summary>Respiratory variability.</summary>
    public static readonly NumberKey RespiratoryVariabilityMs = new()
    {
        Name = "heart.respiratory_variability_ms",
        Unit = "ms",
        Meaning = "Standard deviation of the RR interval that follows breathing; up means more respiratory sinus arrhythmia.",
        Source = "Two-band RR spectrum of McSharry et al., IEEE Trans Biomed Eng 50:289, 2003; size: choice inside the short-term values of Nunan et al., PACE 33:1407, 2010.",
        IsLive = true,
        Minimum = 0,
        Maximum = 150,
        Default = 20,
    };

    /// <summary>Slow variability.</summary>
    public static readonly NumberKey SlowVariabilityMs = new()
    {
        Name = "heart.slow_variability_ms",
        Unit = "ms",
        Meaning = "Standard deviation of the RR interval in the slow band, about 0.1 Hz.",
        Source = "Two-band RR spectrum of McSharry et al. 2003; size: choice inside the values of Nunan et al. 2010.",
        IsLive = true,
        Minimum = 0,
        Maximum = 150,
        Default = 20,
    };

    /// <summary>Centre of the slow band.</summary>
    public static readonly NumberKey SlowFrequencyHz = new()
    {
        Name = "heart.slow_frequency_hz",
        Unit = "Hz",
        Meaning = "Middle of the slow band of RR variability.",
        Source = "LF band 0.04 to 0.15 Hz of the Task Force, Circulation 93:1043, 1996; 0.1 Hz of McSharry et al. 2003.",
        Minimum = 0.04,
        Maximum = 0.15,
        Default = 0.1,
    };

    /// <summary>Every knob of the rhythm.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [RateBpm, RespiratoryVariabilityMs, SlowVariabilityMs, SlowFrequencyHz];
}
