// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Knobs of the electrodes, the ECG amplifier and its converter.</summary>
public static class EcgAmplifierKeys
{
    /// <summary>Sampling rate.</summary>
    public static readonly NumberKey RateHz = new()
    {
        Name = "ecg_amplifier.rate_hz",
        Unit = "Hz",
        Meaning = "Sampling rate of the ECG.",
        Source = "125 to 1000 Hz (common practice).",
        IsWhole = true,
        Minimum = 50,
        Maximum = 2000,
        Default = 250,
    };

    /// <summary>Bits of the converter.</summary>
    public static readonly NumberKey Bits = new()
    {
        Name = "ecg_amplifier.bits",
        Unit = "bit",
        Meaning = "Word length of the converter, two's complement.",
        Source = "12 to 24 bit (common practice).",
        IsWhole = true,
        Minimum = 8,
        Maximum = 24,
        Default = 16,
    };

    /// <summary>Full scale.</summary>
    public static readonly NumberKey FullScaleMv = new()
    {
        Name = "ecg_amplifier.full_scale_mv",
        Unit = "mV",
        Meaning = "Largest input voltage of either sign, referred to the electrodes.",
        Source = "5 mV dynamic range of monitors (IEC 60601-2-27, from memory).",
        Minimum = 0.5,
        Maximum = 1000,
        Default = 5,
    };

    /// <summary>White noise.</summary>
    public static readonly NumberKey WhiteNoiseUvRms = new()
    {
        Name = "ecg_amplifier.white_noise_uv_rms",
        Unit = "µV",
        Meaning = "White noise referred to the electrodes, root mean square over 0 to half the sampling rate.",
        Source = "Amplifiers stay below 50 µV peak to peak (IEC 60601-2-47, from memory); larger values stand for muscle noise.",
        IsLive = true,
        Minimum = 0,
        Maximum = 10000,
        Default = 0,
    };

    /// <summary>Baseline wander.</summary>
    public static readonly NumberKey BaselineWanderMvRms = new()
    {
        Name = "ecg_amplifier.baseline_wander_mv_rms",
        Unit = "mV",
        Meaning = "Random wander of the baseline below about 0.5 Hz, root mean square.",
        Source = "Up to 15 % of the ECG's peak to peak (Friesen et al., IEEE Trans Biomed Eng 37:85, 1990, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20,
        Default = 0,
    };

    /// <summary>Breathing in the baseline.</summary>
    public static readonly NumberKey BreathingBaselineMv = new()
    {
        Name = "ecg_amplifier.breathing_baseline_mv",
        Unit = "mV",
        Meaning = "How far breathing moves the baseline, peak.",
        Source = "0.15 mV of McSharry et al., IEEE Trans Biomed Eng 50:289, 2003.",
        IsLive = true,
        Minimum = 0,
        Maximum = 5,
        Default = 0,
    };

    /// <summary>Mains interference.</summary>
    public static readonly NumberKey MainsUvPp = new()
    {
        Name = "ecg_amplifier.mains_uv_pp",
        Unit = "µV",
        Meaning = "Mains interference left at the amplifier's output, fundamental peak to peak, referred to the electrodes.",
        Source = "20 µV with good, 200 µV with poor contact (choice of this project); a meter must bear 100 µV (IEC 60601-2-27, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 20000,
        Default = 0,
    };

    /// <summary>Second harmonic of the mains.</summary>
    public static readonly NumberKey MainsSecondPercent = Harmonic("second", 10);

    /// <summary>Third harmonic of the mains.</summary>
    public static readonly NumberKey MainsThirdPercent = Harmonic("third", 20);

    /// <summary>Flicker noise.</summary>
    public static readonly NumberKey FlickerNoiseUvRms = new()
    {
        Name = "ecg_amplifier.flicker_noise_uv_rms",
        Unit = "µV",
        Meaning = "1/f noise of the amplifier, root mean square: power falls as 1/f from 0.05 Hz to half the sampling rate.",
        Source = "Choice of this project; integrated front ends have a microvolt or less (data sheets, from memory).",
        IsLive = true,
        Minimum = 0,
        Maximum = 1000,
        Default = 0,
    };

    /// <summary>Input range.</summary>
    public static readonly NumberKey InputRangeMv = new()
    {
        Name = "ecg_amplifier.input_range_mv",
        Unit = "mV",
        Meaning = "Largest voltage of either sign before the filters; what lies beyond is cut off and flagged as saturated. 0: no limit.",
        Source = "300 mV of offset and 5 mV of signal (IEC 60601-2-27, from memory); direct-coupled front ends 200 to 400 mV (common practice).",
        Minimum = 0,
        Maximum = 5000,
        Default = 0,
    };

    /// <summary>High-pass.</summary>
    public static readonly NumberKey HighPassHz = new()
    {
        Name = "ecg_amplifier.high_pass_hz",
        Unit = "Hz",
        Meaning = "Corner (-3 dB) of the analog one-pole high-pass behind the input. 0: none.",
        Source = "0.05 Hz diagnostic, 0.5 or 0.67 Hz monitoring (IEC 60601-2-25 and -47, from memory).",
        Minimum = 0,
        Maximum = 10,
        Default = 0,
    };

    /// <summary>Low-pass.</summary>
    public static readonly NumberKey LowPassHz = new()
    {
        Name = "ecg_amplifier.low_pass_hz",
        Unit = "Hz",
        Meaning = "Corner (-3 dB) of the front end's digital second-order Butterworth low-pass, at most 0.45 of the sampling rate; the channel declares its delay at low frequencies. 0: none.",
        Source = "40 Hz monitoring, 150 Hz diagnostic (IEC 60601-2-25 and -27, from memory).",
        Minimum = 0,
        Maximum = 900,
        Default = 0,
    };

    /// <summary>Common-mode rejection.</summary>
    public static readonly NumberKey CmrrDb = new()
    {
        Name = "ecg_amplifier.cmrr_db",
        Unit = "dB",
        Meaning = "Common-mode rejection of the amplifier itself at mains frequency, electrodes left aside.",
        Source = "60 dB ambulatory, 89 dB diagnostic at least (IEC 60601-2-47 and -25, from memory).",
        Minimum = 20,
        Maximum = 160,
        Default = 90,
    };

    /// <summary>Common-mode input impedance.</summary>
    public static readonly NumberKey CommonModeKohm = new()
    {
        Name = "ecg_amplifier.common_mode_kohm",
        Unit = "kΩ",
        Meaning = "Common-mode impedance of each input at mains frequency; unequal electrodes against it turn common mode into signal.",
        Source = "At least 10 MΩ (IEC 60601-2-47, from memory).",
        Minimum = 100,
        Maximum = 1e8,
        Default = 10000,
    };

    /// <summary>Pacing flag.</summary>
    public static readonly ChoiceKey PacingFlag = new()
    {
        Name = "ecg_amplifier.pacing_flag",
        Meaning = "Whether a circuit of the amplifier flags the first sample after the begin of each pacing spike.",
        Source = "Common practice of front ends.",
        Choices = ["off", "on"],
        Default = "off",
    };

    /// <summary>Every knob of the ECG amplifier.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [
            RateHz, Bits, FullScaleMv, WhiteNoiseUvRms, BaselineWanderMvRms, BreathingBaselineMv, MainsUvPp, MainsSecondPercent, MainsThirdPercent,
            FlickerNoiseUvRms, InputRangeMv, HighPassHz, LowPassHz, CmrrDb, CommonModeKohm, PacingFlag,
        ];

    /// <summary>The knobs that the ECG follows while it is made.</summary>
    internal static IReadOnlyList<NumberKey> Live { get; } = [.. All.OfType<NumberKey>().Where(k => k.IsLive)];

    private static NumberKey Harmonic(string which, double value) => new()
    {
        Name = $"ecg_amplifier.mains_{which}_percent",
        Unit = "%",
        Meaning = $"Size of the {which} harmonic of the mains in percent of the fundamental.",
        Source = "Choice of this project.",
        IsLive = true,
        Minimum = 0,
        Maximum = 200,
        Default = value,
    };
}
