// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>Units that numbers of a table may have: as words of the command line, and as endings of columns' names.</summary>
public static class ColumnUnits
{
    /// <summary>The word for codes that are taken as they are.</summary>
    public const string Counts = "counts";

    // Word, unit of the channel that it is a multiple of, and how many of it. The standard acceleration is exact by definition (BIPM SI Brochure).
    private static readonly (string Word, string Unit, double Factor)[] s_units =
    [
        ("mv", "mV", 1), ("uv", "mV", 1e-3), ("v", "mV", 1e3),
        ("na", "nA", 1), ("ua", "nA", 1e3),
        ("g", "g", 1), ("mg", "g", 1e-3), ("m_s2", "g", 1 / 9.80665),
    ];

    /// <summary>Every word.</summary>
    public static IReadOnlyList<string> All { get; } = [.. s_units.Select(u => u.Word), Counts];

    /// <summary>The words that fit a channel.</summary>
    /// <param name="channel">The channel.</param>
    public static IEnumerable<string> Of(ChannelName channel) => s_units.Where(u => u.Unit == channel.Unit()).Select(u => u.Word).Append(Counts);

    /// <summary>How many units of the channel one unit of the word is; null when it does not fit the channel, or is counts.</summary>
    /// <param name="word">The word.</param>
    /// <param name="channel">The channel.</param>
    public static double? Factor(string word, ChannelName channel)
    {
        foreach ((string known, string unit, double factor) in s_units)
        {
            if (known == word && unit == channel.Unit())
            {
                return factor;
            }
        }

        return null;
    }

    /// <summary>What a code stands for unless the user says otherwise [unit of the channel]: 1 µV, 0.01 nA, 0.1 mg; 24 bits hold ±8.4 V, ±84 µA, ±839 g.</summary>
    /// <param name="channel">The channel.</param>
    public static double DefaultPerCode(ChannelName channel) => channel.Unit() switch { "mV" => 1e-3, "nA" => 1e-2, _ => 1e-4 };

    /// <summary>The part of a column's name before its unit, and the word for the unit; null when it has none.</summary>
    /// <param name="name">Name in the form of <see cref="Plain"/>.</param>
    internal static (string Stem, string? Word) Parted(string name)
    {
        foreach (string word in All.OrderByDescending(w => w.Length))
        {
            if (name.EndsWith("_" + word, StringComparison.Ordinal))
            {
                return (name[..^(word.Length + 1)], word);
            }
        }

        return (name, null);
    }

    /// <summary>A column's name in small letters, with one _ for whatever is neither letter nor digit: <c>ECG [mV]</c> is <c>ecg_mv</c>.</summary>
    /// <param name="name">The name.</param>
    internal static string Plain(string name)
    {
        string text = name.Replace("^", "", StringComparison.Ordinal).Replace("µ", "u", StringComparison.Ordinal).Replace("μ", "u", StringComparison.Ordinal);
        return string.Join('_', new string([.. text.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : ' ')]).Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }
}
