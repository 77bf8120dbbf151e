// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Names in a vector plan: of requirements, of folders, of channels.</summary>
internal static class PlanNames
{
    /// <summary>Whether a text can name a requirement: it stands in tables, in CSV and in XML.</summary>
    public static bool IsId(string text) => text.Length > 0 && char.IsAsciiLetterOrDigit(text[0]) && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.' or '_');

    /// <summary>Whether a text can name a folder and, with underscores, an array of C.</summary>
    public static bool IsFolder(string text) => text.Length > 0 && char.IsAsciiLetterLower(text[0]) && text.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');

    /// <summary>A name of a folder; empty after a mistake.</summary>
    public static string Folder(KeyTable table, TextKey key)
    {
        string name = table.Text(key);
        if (name.Length > 0 && !IsFolder(name))
        {
            table.Add(key, $"{key.Name} = \"{TomlNames.Shown(name)}\" must be lower-case letters, digits and hyphens of ASCII, a letter first");
            return "";
        }

        return name;
    }

    /// <summary>A channel; null after a mistake.</summary>
    public static ChannelName? Channel(KeyTable table, KeyDefinition key, ValueSyntax value)
    {
        string word = value is StringValueSyntax text ? text.Value ?? "" : "";
        if (ChannelNames.TryParse(word, out ChannelName channel))
        {
            return channel;
        }

        table.Add(value.Span, $"{key.Name} has {ValueReader.Shown(value)}, which is no channel; the nearest is \"{NearestName.Find(word, ChannelNames.All)}\"");
        return null;
    }

    /// <summary>The items of a list; null, and a sentence, when the value is none.</summary>
    public static IReadOnlyList<ValueSyntax>? Items(KeyTable table, FreeKey key)
    {
        if (table.Value(key) is not ValueSyntax value)
        {
            return null;
        }

        if (value is ArraySyntax array)
        {
            return [.. array.Items.Select(i => i.Value!)];
        }

        table.Add(value.Span, $"{key.Name} = {ValueReader.Shown(value)} must be {key.Allowed}");
        return null;
    }
}
