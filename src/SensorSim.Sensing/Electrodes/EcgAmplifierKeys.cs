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

    /// <summary>Every knob of the ECG amplifier.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [RateHz, Bits, FullScaleMv, WhiteNoiseUvRms, BaselineWanderMvRms, BreathingBaselineMv, MainsUvPp, MainsSecondPercent, MainsThirdPercent];

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
