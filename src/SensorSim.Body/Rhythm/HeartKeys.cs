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

    /// <summary>Variability below 0.04 Hz.</summary>
    public static readonly NumberKey DriftVariabilityMs = new()
    {
        Name = "heart.drift_variability_ms",
        Unit = "ms",
        Meaning = "Standard deviation of the RR interval below 0.04 Hz, with a spectrum that falls as one over the frequency.",
        Source = "1/f below 0.04 Hz: Task Force, Circulation 93:1043, 1996; size: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 200,
        Default = 0,
    };

    /// <summary>Wanted SDNN.</summary>
    public static readonly NumberKey SdnnMs = new()
    {
        Name = "heart.sdnn_ms",
        Unit = "ms",
        Meaning = "Standard deviation of all RR intervals; set together with heart.rmssd_ms and heart.lf_hf in place of the three variabilities.",
        Source = "Definitions of the Task Force, Circulation 93:1043, 1996.",
        HasDefault = false,
        Minimum = 1,
        Maximum = 200,
        Default = 50,
    };

    /// <summary>Wanted RMSSD.</summary>
    public static readonly NumberKey RmssdMs = new()
    {
        Name = "heart.rmssd_ms",
        Unit = "ms",
        Meaning = "Root mean square of successive differences of the RR intervals; set together with heart.sdnn_ms and heart.lf_hf.",
        Source = "Definitions of the Task Force, Circulation 93:1043, 1996.",
        HasDefault = false,
        Minimum = 1,
        Maximum = 200,
        Default = 40,
    };

    /// <summary>Wanted LF/HF.</summary>
    public static readonly NumberKey LfHf = new()
    {
        Name = "heart.lf_hf",
        Unit = "",
        Meaning = "Power of the RR intervals in 0.04 to 0.15 Hz over that in 0.15 to 0.40 Hz; set together with heart.sdnn_ms and heart.rmssd_ms.",
        Source = "Definitions of the Task Force, Circulation 93:1043, 1996.",
        HasDefault = false,
        Minimum = 0.05,
        Maximum = 20,
        Default = 1.5,
    };

    /// <summary>Length of a sinus pause.</summary>
    public static readonly NumberKey PauseS = new()
    {
        Name = "heart.pause_s",
        Unit = "s",
        Meaning = "Length of the RR interval of a sinus pause; 0 makes none.",
        Source = "2 s and more is worth noting, 3 s and more a sinus pause (ACC/AHA/HRS guideline 2018, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 15,
        Default = 0,
    };

    /// <summary>Spacing of sinus pauses.</summary>
    public static readonly NumberKey PauseEveryS = new()
    {
        Name = "heart.pause_every_s",
        Unit = "s",
        Meaning = "Mean time from one sinus pause to the next.",
        Source = "Choice of this project.",
        Minimum = 5,
        Maximum = 3600,
        Default = 20,
    };

    /// <summary>Scripted beats.</summary>
    public static readonly TextKey Beats = new()
    {
        Name = "heart.beats",
        Meaning = "Beats of the scripted rhythm, one after the other and again from the start: word and RR interval in ms up to the next beat, for example normal 800, normal 480, ventricular 1120: the ventricular beat comes 480 ms after a normal one.",
        Source = "Choice of this project.",
        HasDefault = false,
        MaximumLength = 20000,
    };

    /// <summary>File of scripted beats.</summary>
    public static readonly TextKey BeatsFile = new()
    {
        Name = "heart.beats_file",
        Meaning = "File with the beats of the scripted rhythm: a CSV with the column rr_ms and, if wanted, class; or EDF+ or BDF+ with the beats as annotations; path relative to the scenario.",
        Source = "Choice of this project.",
        HasDefault = false,
        MaximumLength = 400,
    };

    /// <summary>Text of annotations that are beats.</summary>
    public static readonly TextKey BeatsLabel = new()
    {
        Name = "heart.beats_label",
        Meaning = "EDF+ or BDF+ file of beats: text of the annotations that are beats, each a normal one; the letters in use for beats, r_peak, beat, and truth that was recorded here, unless given.",
        Source = "Choice of this project.",
        HasDefault = false,
        MaximumLength = 100,
    };

    /// <summary>Every knob of the rhythm.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        Rhythm, RateBpm, RespiratoryVariabilityMs, SlowVariabilityMs, SlowFrequencyHz, DriftVariabilityMs, SdnnMs, RmssdMs, LfHf, PauseS, PauseEveryS,
        Beats, BeatsFile, BeatsLabel,
    ];
}
