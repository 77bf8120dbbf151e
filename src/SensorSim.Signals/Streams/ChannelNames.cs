// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Streams;

/// <summary>The text forms of <see cref="ChannelName"/>, as used in files and on the command line.</summary>
public static class ChannelNames
{
    private static readonly string[] s_texts = ["ecg", "red", "infrared", "green", "dark", "accel_x", "accel_y", "accel_z"];
    private static readonly string[] s_units = ["mV", "nA", "nA", "nA", "nA", "g", "g", "g"];

    /// <summary>Every channel name in text form, in numeric order.</summary>
    public static IReadOnlyList<string> All => s_texts;

    /// <summary>Text form, for example <c>accel_x</c>.</summary>
    /// <param name="name">A defined channel name.</param>
    public static string Text(this ChannelName name) => s_texts[(int)name];

    /// <summary>The physical unit of the channel: mV, nA or g.</summary>
    /// <param name="name">A defined channel name.</param>
    public static string Unit(this ChannelName name) => s_units[(int)name];

    /// <summary>Reads a text form; exact, case-sensitive.</summary>
    /// <param name="text">Text such as <c>infrared</c>.</param>
    /// <param name="name">The channel, when the text is known.</param>
    /// <returns>Whether the text is a channel name.</returns>
    public static bool TryParse(string text, out ChannelName name)
    {
        int index = Array.IndexOf(s_texts, text);
        name = index < 0 ? default : (ChannelName)index;
        return index >= 0;
    }
}
