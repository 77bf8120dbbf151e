// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Signals.Detectors;

/// <summary>The text forms of <see cref="SensorSetting"/>, and which channels have which.</summary>
public static class SensorSettings
{
    private static readonly string[] s_texts = ["led_current_ma", "pulse_width_us", "gain", "decimation"];
    private static readonly string[] s_units = ["mA", "µs", "", ""];

    /// <summary>Every setting in text form, in numeric order.</summary>
    public static IReadOnlyList<string> All => s_texts;

    /// <summary>Text form, for example <c>led_current_ma</c>.</summary>
    /// <param name="setting">A defined setting.</param>
    public static string Text(this SensorSetting setting) => s_texts[(int)setting];

    /// <summary>Unit of the value; empty for a ratio.</summary>
    /// <param name="setting">A defined setting.</param>
    public static string Unit(this SensorSetting setting) => s_units[(int)setting];

    /// <summary>Reads a text form; exact, case-sensitive.</summary>
    /// <param name="text">Text such as <c>decimation</c>.</param>
    /// <param name="setting">The setting, when the text is known.</param>
    /// <returns>Whether the text is a setting.</returns>
    public static bool TryParse(string text, out SensorSetting setting)
    {
        int index = Array.IndexOf(s_texts, text);
        setting = index < 0 ? default : (SensorSetting)index;
        return index >= 0;
    }

    /// <summary>
    /// Whether a channel has a setting: every channel a decimation, ECG and light a gain, light slots (the dark one too) a time over which
    /// they gather light, lit slots an LED.
    /// </summary>
    /// <param name="setting">The setting; one that is not defined belongs to no channel.</param>
    /// <param name="channel">The channel.</param>
    public static bool IsOf(this SensorSetting setting, ChannelName channel) => setting switch
    {
        SensorSetting.LedCurrentMa => channel is ChannelName.Red or ChannelName.Infrared or ChannelName.Green,
        SensorSetting.PulseWidthUs => channel is ChannelName.Red or ChannelName.Infrared or ChannelName.Green or ChannelName.Dark,
        SensorSetting.Gain => channel is not (ChannelName.AccelX or ChannelName.AccelY or ChannelName.AccelZ),
        SensorSetting.Decimation => true,
        _ => false,
    };
}
