// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Takes one TOML value for one key, or says why not.</summary>
internal static class ValueReader
{
    public static void Read(KeyDefinition key, ValueSyntax value, KeyValues values, MistakeList mistakes)
    {
        switch (key)
        {
            case NumberKey number:
                if (Number(number, key.Name, value, m => mistakes.Add(value.Span, m)) is double x)
                {
                    values.Set(number, x);
                }

                break;
            case ChoiceKey choice:
                if (Word(choice, key.Name, value, m => mistakes.Add(value.Span, m)) is string word)
                {
                    values.Set(choice, word);
                }

                break;
            case TextKey line when value is StringValueSyntax text && IsLine(text.Value, line.MaximumLength):
                values.Set(line, text.Value ?? "");
                break;
            default:
                mistakes.Add(value.Span, $"{key.Name} = {Shown(value)} must be text on one line, {key.RangeText}");
                break;
        }
    }

    /// <summary>A number that a key may have, or null and a sentence.</summary>
    /// <param name="key">The key.</param>
    /// <param name="label">What the sentence calls the value.</param>
    /// <param name="value">The value.</param>
    /// <param name="report">Takes the sentence.</param>
    public static double? Number(NumberKey key, string label, ValueSyntax value, Action<string> report)
    {
        string unit = key.Unit.Length == 0 ? "" : $" {key.Unit}";
        string range = $"{Text(key.Minimum)} to {Text(key.Maximum)}{unit}";
        if (Number(value) is not double x)
        {
            report($"{label} = {Shown(value)} must be a {(key.IsWhole ? "whole " : "")}number, {range}");
            return null;
        }

        if (!(x >= key.Minimum && x <= key.Maximum))
        {
            report($"{label} = {Text(x)} is outside of {range}");
            return null;
        }

        if (key.IsWhole && x != Math.Truncate(x))
        {
            report($"{label} = {Text(x)} must be a whole number, {range}");
            return null;
        }

        return x;
    }

    /// <summary>A word that a key may have, or null and a sentence.</summary>
    /// <param name="key">The key.</param>
    /// <param name="label">What the sentence calls the value.</param>
    /// <param name="value">The value.</param>
    /// <param name="report">Takes the sentence.</param>
    public static string? Word(ChoiceKey key, string label, ValueSyntax value, Action<string> report)
    {
        if (value is StringValueSyntax text && key.Choices.Contains(text.Value ?? "", StringComparer.Ordinal))
        {
            return text.Value ?? "";
        }

        string nearest = value is StringValueSyntax word ? $"; the nearest is \"{NearestName.Find(word.Value ?? "", key.Choices)}\"" : "";
        report($"{label} = {Shown(value)} must be one of \"{string.Join("\", \"", key.Choices)}\"{nearest}");
        return null;
    }

    /// <summary>The number that a value is, or null.</summary>
    public static double? Number(ValueSyntax value) => value switch
    {
        IntegerValueSyntax integer => integer.Value,
        FloatValueSyntax real => real.Value,
        _ => null,
    };

    /// <summary>What the user wrote, not longer than anybody reads.</summary>
    public static string Shown(ValueSyntax value)
    {
        string text = value.ToString().Trim();
        int end = text.AsSpan().IndexOfAny('\r', '\n');
        text = end < 0 ? text : text[..end] + "…";
        return text.Length > 40 ? text[..40] + "…" : text;
    }

    private static bool IsLine(string? text, int maximumLength) =>
        text is not null && text.Length <= maximumLength && !text.Any(char.IsControl);

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
