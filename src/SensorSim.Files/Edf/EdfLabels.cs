// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Labels of signals and our channels.</summary>
internal static class EdfLabels
{
    private static readonly string[] s_ours = ["ECG", "Pleth red", "Pleth IR", "Pleth green", "Light dark", "Accel X", "Accel Y", "Accel Z"];
    private static readonly string[] s_heart = ["ecg", "ekg"];
    private static readonly string[] s_pulse = ["pleth", "ppg", "plethysmogram", "photoplethysmogram", "light"];
    private static readonly string[] s_movement = ["accel", "acc", "accelerometer", "acceleration"];

    // Names of leads alone count where the unit is a voltage.
    private static readonly string[] s_leads = ["i", "ii", "iii", "avr", "avl", "avf", "v1", "v2", "v3", "v4", "v5", "v6", "mli", "mlii", "mliii"];

    // Colours alone count where the unit is a current.
    private static readonly string[] s_colours = ["red", "ir", "infrared", "green"];
    private static readonly char[] s_digits = [.. "0123456789"];

    /// <summary>The label that a channel is written with: type, space, specification as EDF+ wants it.</summary>
    public static string Of(ChannelName channel) => s_ours[(int)channel];

    /// <summary>The channel that a label names.</summary>
    /// <param name="label">Label of the file.</param>
    /// <param name="dimension">Its unit.</param>
    /// <returns>The channel; null when the label names none.</returns>
    public static ChannelName? ChannelOf(string label, string dimension)
    {
        string[] words = label.ToLowerInvariant().Split([' ', '_', '-', '.', '/', '(', ')', '[', ']'], StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            return null;
        }

        if (s_heart.Contains(words[0].TrimEnd(s_digits)) || (EdfDimensions.InUnits(ChannelName.Ecg, dimension) is not null && s_leads.Contains(words[0])))
        {
            return ChannelName.Ecg;
        }

        return s_movement.Contains(words[0]) ? Axis(words[^1])
            : s_pulse.Contains(words[0]) || (EdfDimensions.InUnits(ChannelName.Red, dimension) is not null && s_colours.Contains(words[0])) ? Light(words)
            : null;
    }

    private static ChannelName? Axis(string word) => word switch
    {
        "x" => ChannelName.AccelX,
        "y" => ChannelName.AccelY,
        "z" => ChannelName.AccelZ,
        _ => null,
    };

    private static ChannelName? Light(string[] words)
    {
        if (words.Contains("red"))
        {
            return ChannelName.Red;
        }

        if (words.Contains("green"))
        {
            return ChannelName.Green;
        }

        if (words.Contains("dark") || words.Contains("ambient"))
        {
            return ChannelName.Dark;
        }

        // A pulse without a colour is taken as infrared, which is what most fingers are lit with; bare "light" is the room's.
        return words[0] != "light" || words.Contains("ir") || words.Contains("infrared") ? ChannelName.Infrared : null;
    }
}
