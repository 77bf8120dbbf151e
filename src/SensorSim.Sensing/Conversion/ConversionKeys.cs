// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>Knobs of a converter's errors: the same set for the ECG, the light and the acceleration.</summary>
public sealed class ConversionKeys
{
    private const string Own = "Choice of this project.";

    private ConversionKeys(string section)
    {
        OffsetCodes = new NumberKey
        {
            Name = section + ".converter_offset_codes",
            Unit = "codes",
            Meaning = "What the converter adds to every code.",
            Source = "A few to some hundred codes (common practice).",
            Minimum = -100_000,
            Maximum = 100_000,
            Default = 0,
        };
        GainErrorPercent = new NumberKey
        {
            Name = section + ".converter_gain_error_percent",
            Unit = "%",
            Meaning = "How much too large the codes are, counted from physical zero.",
            Source = "0.1 to 5 % before calibration (common practice).",
            Minimum = -20,
            Maximum = 20,
            Default = 0,
        };
        NonlinearityCodes = new NumberKey
        {
            Name = section + ".converter_nonlinearity_codes",
            Unit = "codes",
            Meaning = "Integral non-linearity: a bow (parabola) of so many codes in the middle of the range and none at its ends.",
            Source = "0.5 to 10 codes (common practice); the bow is the textbook shape with a second harmonic.",
            Minimum = -1000,
            Maximum = 1000,
            Default = 0,
        };
        Dither = new ChoiceKey
        {
            Name = section + ".converter_dither",
            Meaning = "Noise of triangular density, from one code below to one above, added before rounding: mean and power of the rounding error no longer depend on the signal, its power is threefold.",
            Source = "Lipshitz, Wannamaker and Vanderkooy, J Audio Eng Soc 40:355, 1992.",
            Choices = ["off", "triangular"],
            Default = "off",
        };
        JitterUsRms = new NumberKey
        {
            Name = section + ".sampling_jitter_us_rms",
            Unit = "µs",
            Meaning = "How far each sample is taken beside its instant, by chance, root mean square; an error of this times the slope.",
            Source = "Below 1 µs from a crystal, 10 to 1000 µs when software starts each sample (common practice).",
            Minimum = 0,
            Maximum = 1000,
            Default = 0,
        };
        StuckCodesPerH = new NumberKey
        {
            Name = section + ".stuck_codes_per_h",
            Unit = "1/h",
            Meaning = "How often the converter gets stuck and gives the same code over and over, by chance.",
            Source = Own,
            Minimum = 0,
            Maximum = 3600,
            Default = 0,
        };
        StuckCodesS = new NumberKey
        {
            Name = section + ".stuck_codes_s",
            Unit = "s",
            Meaning = "For how long a converter that got stuck gives the same code.",
            Source = Own,
            Minimum = 0.01,
            Maximum = 600,
            Default = 2,
        };
        BitFlipsPerMillion = new NumberKey
        {
            Name = section + ".bit_flips_per_million",
            Unit = "1/million",
            Meaning = "Of a million samples so many have one bit turned over, each bit of the word alike, as a bad line to the converter does.",
            Source = Own,
            Minimum = 0,
            Maximum = 10_000,
            Default = 0,
        };
        All = [OffsetCodes, GainErrorPercent, NonlinearityCodes, Dither, JitterUsRms, StuckCodesPerH, StuckCodesS, BitFlipsPerMillion];
    }

    /// <summary>The converter of the ECG.</summary>
    public static ConversionKeys Ecg { get; } = new("ecg_amplifier");

    /// <summary>The converter of the light slots.</summary>
    public static ConversionKeys Optics { get; } = new("optics");

    /// <summary>The converter of the acceleration.</summary>
    public static ConversionKeys Accelerometer { get; } = new("accelerometer");

    /// <summary>Offset.</summary>
    public NumberKey OffsetCodes { get; }

    /// <summary>Gain error.</summary>
    public NumberKey GainErrorPercent { get; }

    /// <summary>Integral non-linearity in the middle of the range.</summary>
    public NumberKey NonlinearityCodes { get; }

    /// <summary>Dither.</summary>
    public ChoiceKey Dither { get; }

    /// <summary>Sampling jitter.</summary>
    public NumberKey JitterUsRms { get; }

    /// <summary>How often codes get stuck.</summary>
    public NumberKey StuckCodesPerH { get; }

    /// <summary>For how long codes are stuck.</summary>
    public NumberKey StuckCodesS { get; }

    /// <summary>How many samples have a bit turned over.</summary>
    public NumberKey BitFlipsPerMillion { get; }

    /// <summary>Every knob of this converter.</summary>
    public IReadOnlyList<KeyDefinition> All { get; }

    /// <summary>The knobs of a channel's converter.</summary>
    /// <param name="channel">The channel.</param>
    public static ConversionKeys Of(ChannelName channel) => channel switch
    {
        ChannelName.Ecg => Ecg,
        ChannelName.AccelX or ChannelName.AccelY or ChannelName.AccelZ => Accelerometer,
        _ => Optics,
    };
}
