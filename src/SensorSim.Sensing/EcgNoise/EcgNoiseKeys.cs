// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Knobs of the noise in the ECG: muscle, two kinds of electrode motion, recorded noise, and a level by ratio for every source.</summary>
public static class EcgNoiseKeys
{
    private const string Own = "Choice of this project.";

    private const string StressTest =
        "Noise-stress protocol of Moody, Muldrow and Mark, Computers in Cardiology 11:381, 1984 (24 to -6 dB); range: choice of this project.";

    /// <summary>White noise by ratio.</summary>
    public static readonly NumberKey WhiteNoiseSnrDb = Ratio("white_noise", "White noise, added in power to ecg_amplifier.white_noise_uv_rms");

    /// <summary>Baseline wander by ratio.</summary>
    public static readonly NumberKey BaselineWanderSnrDb =
        Ratio("baseline_wander", "Random wander of the baseline, added in power to ecg_amplifier.baseline_wander_mv_rms");

    /// <summary>Mains by ratio.</summary>
    public static readonly NumberKey MainsSnrDb = Ratio("mains", "Mains with its harmonics, added in power to ecg_amplifier.mains_uv_pp");

    /// <summary>Muscle noise.</summary>
    public static readonly NumberKey MuscleUvRms = Level(
        "muscle", "Muscle noise that is always there, root mean square over 0 to half the sampling rate; spectrum of the surface EMG.");

    /// <summary>Muscle noise by ratio.</summary>
    public static readonly NumberKey MuscleSnrDb = Ratio("muscle", "Muscle noise that is always there, added in power to muscle_uv_rms");

    /// <summary>Bursts of muscle noise.</summary>
    public static readonly NumberKey MuscleBurstUvRms = Level(
        "muscle_burst", "Muscle noise in bursts, on top of the steady one: root mean square in the middle of a burst.");

    /// <summary>Bursts of muscle noise by ratio.</summary>
    public static readonly NumberKey MuscleBurstSnrDb =
        Ratio("muscle_burst", "Muscle noise in the middle of a burst, added in power to muscle_burst_uv_rms");

    /// <summary>Bursts in a minute.</summary>
    public static readonly NumberKey MuscleBurstPerMin = new()
    {
        Name = "ecg_noise.muscle_burst_per_min",
        Unit = "1/min",
        Meaning = "Bursts of muscle noise in a minute on average, at random times; heard of only with a level of bursts.",
        Source = Own,
        Minimum = 0,
        Maximum = 30,
        Default = 6,
    };

    /// <summary>Length of a burst.</summary>
    public static readonly NumberKey MuscleBurstS = new()
    {
        Name = "ecg_noise.muscle_burst_s",
        Unit = "s",
        Meaning = "Mean length of a burst of muscle noise; each is drawn from half to one and a half times as long, a fifth at either end is its edge.",
        Source = "Bursts of 50 ms and more (Friesen et al., IEEE Trans Biomed Eng 37:85, 1990, from memory).",
        Minimum = 0.05,
        Maximum = 30,
        Default = 1,
    };

    /// <summary>Slow electrode motion.</summary>
    public static readonly NumberKey SlowMotionUvRms = Level(
        "slow_motion", "Slow electrode motion: transients of 80 to 500 ms and a baseline of 0.5 to 5 Hz, root mean square of both in the reference gait.");

    /// <summary>Slow electrode motion by ratio.</summary>
    public static readonly NumberKey SlowMotionSnrDb =
        Ratio("slow_motion", "Slow electrode motion in the reference gait, added in power to slow_motion_uv_rms");

    /// <summary>Transients of slow motion in a minute.</summary>
    public static readonly NumberKey SlowMotionPerMin = Rate("slow_motion", 30);

    /// <summary>Transients of slow motion in a minute at rest.</summary>
    public static readonly NumberKey SlowMotionRestPerMin = RestRate("slow_motion");

    /// <summary>Sharp electrode motion.</summary>
    public static readonly NumberKey SharpMotionUvRms = Level(
        "sharp_motion", "Sharp electrode motion: transients of 60 to 120 ms like a QRS complex, root mean square in the reference gait.");

    /// <summary>Sharp electrode motion by ratio.</summary>
    public static readonly NumberKey SharpMotionSnrDb =
        Ratio("sharp_motion", "Sharp electrode motion in the reference gait, added in power to sharp_motion_uv_rms");

    /// <summary>Transients of sharp motion in a minute.</summary>
    public static readonly NumberKey SharpMotionPerMin = Rate("sharp_motion", 30);

    /// <summary>Transients of sharp motion in a minute at rest.</summary>
    public static readonly NumberKey SharpMotionRestPerMin = RestRate("sharp_motion");

    /// <summary>Recorded noise.</summary>
    public static readonly TextKey RecordingFile = new()
    {
        Name = "ecg_noise.recording_file",
        Meaning = "File of recorded noise, played over and over: EDF or BDF, or CSV with the columns time_s,value or value alone; its path counts from the scenario's folder.",
        Source = Own,
        HasDefault = false,
        MaximumLength = 1000,
    };

    /// <summary>Signal of the recorded noise.</summary>
    public static readonly TextKey RecordingLabel = new()
    {
        Name = "ecg_noise.recording_label",
        Meaning = "EDF or BDF file of recorded noise: label of the signal that is played, upper and lower case alike; the only one unless given.",
        Source = Own,
        HasDefault = false,
        MaximumLength = 16,
    };

    /// <summary>Rate of the recorded noise.</summary>
    public static readonly NumberKey RecordingRateHz = new()
    {
        Name = "ecg_noise.recording_rate_hz",
        Unit = "Hz",
        Meaning = "Sampling rate of the recorded noise, when its file is a CSV without the column time_s.",
        Source = Own,
        HasDefault = false,
        Minimum = 20,
        Maximum = 10000,
        Default = 250,
    };

    /// <summary>Level of the recorded noise.</summary>
    public static readonly NumberKey RecordingUvRms = Level("recording", "Recorded noise, its mean taken off, root mean square over the whole file.");

    /// <summary>Level of the recorded noise by ratio.</summary>
    public static readonly NumberKey RecordingSnrDb = Ratio("recording", "Recorded noise over the whole file, added in power to recording_uv_rms");

    /// <summary>Every knob of the noise in the ECG.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        WhiteNoiseSnrDb, BaselineWanderSnrDb, MainsSnrDb, MuscleUvRms, MuscleSnrDb, MuscleBurstUvRms, MuscleBurstSnrDb, MuscleBurstPerMin,
        MuscleBurstS, SlowMotionUvRms, SlowMotionSnrDb, SlowMotionPerMin, SlowMotionRestPerMin, SharpMotionUvRms, SharpMotionSnrDb,
        SharpMotionPerMin, SharpMotionRestPerMin, RecordingFile, RecordingLabel, RecordingRateHz, RecordingUvRms, RecordingSnrDb,
    ];

    /// <summary>The knobs that the ECG follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [.. All.OfType<NumberKey>().Where(k => k.IsLive)];

    private static NumberKey Level(string name, string meaning) => new()
    {
        Name = $"ecg_noise.{name}_uv_rms",
        Unit = "µV",
        Meaning = meaning,
        Source = "Muscle noise about 10 % of the ECG's peak to peak, electrode motion up to full scale (Friesen et al. 1990, from memory); range: choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = 0,
    };

    private static NumberKey Ratio(string name, string what) => new()
    {
        Name = $"ecg_noise.{name}_snr_db",
        Unit = "dB",
        Meaning = $"{what}: 10 log10 of (QRS peak to peak)²/8 of a steady normal beat over the power of the noise; not given: no such noise.",
        Source = StressTest,
        IsLive = true,
        Minimum = -20,
        Maximum = 120,
        Default = 120,
        HasDefault = false,
    };

    private static NumberKey Rate(string name, double value) => new()
    {
        Name = $"ecg_noise.{name}_per_min",
        Unit = "1/min",
        Meaning = $"Transients of {name} in a minute in the reference gait, others in proportion to how hard the body moves, at most 480, none at rest; with a set level fewer are larger.",
        Source = Own,
        Minimum = 0,
        Maximum = 120,
        Default = value,
    };

    private static NumberKey RestRate(string name) => new()
    {
        Name = $"ecg_noise.{name}_rest_per_min",
        Unit = "1/min",
        Meaning = $"Transients of {name} in a minute without any movement, on top of those of movement.",
        Source = Own,
        Minimum = 0,
        Maximum = 120,
        Default = 0,
    };
}
