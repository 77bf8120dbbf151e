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
                ReadNumber(number, value, values, mistakes);
                break;
            case ChoiceKey choice when value is StringValueSyntax text && choice.Choices.Contains(text.Value ?? "", StringComparer.Ordinal):
                values.Set(choice, text.Value ?? "");
                break;
            case ChoiceKey choice:
                string nearest = value is StringValueSyntax word ? $"; the nearest is \"{NearestName.Find(word.Value ?? "", choice.Choices)}\"" : "";
                mistakes.Add(value.Span, $"{key.Name} = {Shown(value)} must be one of \"{string.Join("\", \"", choice.Choices)}\"{nearest}");
                break;
            case TextKey line when value is StringValueSyntax text && IsLine(text.Value, line.MaximumLength):
                values.Set(line, text.Value ?? "");
                break;
            default:
                mistakes.Add(value.Span, $"{key.Name} = {Shown(value)} must be text on one line, {key.RangeText}");
                break;
        }
    }

    private static void ReadNumber(NumberKey key, ValueSyntax value, KeyValues values, MistakeList mistakes)
    {
        double? number = value switch
        {
            IntegerValueSyntax integer => integer.Value,
            FloatValueSyntax real => real.Value,
            _ => null,
        };
        string unit = key.Unit.Length == 0 ? "" : $" {key.Unit}";
        string range = $"{Number(key.Minimum)} to {Number(key.Maximum)}{unit}";
        if (number is not double x)
        {
            mistakes.Add(value.Span, $"{key.Name} = {Shown(value)} must be a {(key.IsWhole ? "whole " : "")}number, {range}");
        }
        else if (!(x >= key.Minimum && x <= key.Maximum))
        {
            mistakes.Add(value.Span, $"{key.Name} = {Number(x)} is outside of {range}");
        }
        else if (key.IsWhole && x != Math.Truncate(x))
        {
            mistakes.Add(value.Span, $"{key.Name} = {Number(x)} must be a whole number, {range}");
        }
        else
        {
            values.Set(key, x);
        }
    }

    private static bool IsLine(string? text, int maximumLength) =>
        text is not null && text.Length <= maximumLength && !text.Any(char.IsControl);

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static string Shown(ValueSyntax value)
    {
        string text = value.ToString().Trim();
        int end = text.AsSpan().IndexOfAny('\r', '\n');
        text = end < 0 ? text : text[..end] + "…";
        return text.Length > 40 ? text[..40] + "…" : text;
    }
}
