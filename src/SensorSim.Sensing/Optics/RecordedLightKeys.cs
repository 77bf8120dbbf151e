// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>Knobs of recorded noise in the light; part of the section of the optics.</summary>
public static class RecordedLightKeys
{
    private const string Own = "Choice of this project.";

    /// <summary>Recorded noise.</summary>
    public static readonly TextKey File = new()
    {
        Name = "optics.noise_recording_file",
        Meaning = "File of recorded noise for the lit slots, played over and over: EDF or BDF, or CSV with the columns time_s,value or value alone; its path counts from the scenario's folder.",
        Source = Own,
        HasDefault = false,
        MaximumLength = 1000,
    };

    /// <summary>Signal of the recorded noise.</summary>
    public static readonly TextKey Label = new()
    {
        Name = "optics.noise_recording_label",
        Meaning = "EDF or BDF file of recorded noise: label of the signal that is played, upper and lower case alike; the only one unless given.",
        Source = Own,
        HasDefault = false,
        MaximumLength = 16,
    };

    /// <summary>Rate of the recorded noise.</summary>
    public static readonly NumberKey RateHz = new()
    {
        Name = "optics.noise_recording_rate_hz",
        Unit = "Hz",
        Meaning = "Sampling rate of the recorded noise, when its file is a CSV without the column time_s.",
        Source = Own,
        HasDefault = false,
        Minimum = 20,
        Maximum = 10000,
        Default = 100,
    };

    /// <summary>Level as a current.</summary>
    public static readonly NumberKey NaRms = new()
    {
        Name = "optics.noise_recording_na_rms",
        Unit = "nA",
        Meaning = "Recorded noise of every lit slot, its mean taken off, root mean square over the whole file.",
        Source = Own,
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = 0,
    };

    /// <summary>Level as a distance from the pulse.</summary>
    public static readonly NumberKey SnrDb = new()
    {
        Name = "optics.noise_recording_snr_db",
        Unit = "dB",
        Meaning = "Recorded noise of every lit slot, each by its own pulse: 20 log10 of (foot-to-peak light / 2√2) over rms; not given: no such noise.",
        Source = "Optical signal-to-noise ratio as this project defines it.",
        IsLive = true,
        Minimum = -20,
        Maximum = 120,
        Default = 120,
        HasDefault = false,
    };

    /// <summary>Every knob of recorded noise in the light.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [File, Label, RateHz, NaRms, SnrDb];

    /// <summary>The knobs that a lit slot follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [NaRms, SnrDb];
}
