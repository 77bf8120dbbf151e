// SPDX-License-Identifier: MIT
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Names of keys and sections as TOML means them, and as messages show them.</summary>
internal static class TomlNames
{
    private const int LongestShown = 60;

    /// <summary>The name that a key or section has: the same with and without quotation marks; parts joined by dots.</summary>
    public static string Text(KeySyntax? key) => key is null
        ? ""
        : string.Join('.', key.DotKeys.Select(d => Part(d.Key)).Prepend(Part(key.Key)));

    /// <summary>A name of the user's for a message: not longer than anybody reads.</summary>
    public static string Shown(string name) => name.Length > LongestShown ? name[..LongestShown] + "…" : name;

    /// <summary>A text without what would break its line or upset a terminal.</summary>
    public static string WithoutControls(string text) => string.Concat(text.Select(c => char.IsControl(c) ? '?' : c));

    /// <summary>What stands before the first line end.</summary>
    public static string FirstLine(string text)
    {
        int end = text.AsSpan().IndexOfAny('\r', '\n');
        return end < 0 ? text : text[..end];
    }

    private static string Part(BareKeyOrStringValueSyntax? part) => part switch
    {
        StringValueSyntax quoted => quoted.Value ?? "",
        BareKeySyntax bare => bare.Key?.Text ?? "",
        _ => "",
    };
}
