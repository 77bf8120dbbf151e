// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Choices;

/// <summary>Checks of a detector's constants and of the values that a user gives them.</summary>
internal static class ConstantValues
{
    /// <summary>What every constant's name begins with.</summary>
    public const string Prefix = "detector.";

    /// <summary>Refuses values of constants that there are not, or out of range.</summary>
    /// <param name="detector">What the sentence calls the detector.</param>
    /// <param name="constants">What there is.</param>
    /// <param name="values">What the user wants.</param>
    /// <exception cref="NotSupportedException">A value does not fit; the message says what would.</exception>
    public static void Check(string detector, IReadOnlyList<NumberKey> constants, IReadOnlyDictionary<string, double> values)
    {
        foreach ((string name, double value) in values)
        {
            NumberKey? key = constants.FirstOrDefault(k => k.Name == name);
            if (key is null)
            {
                string there = constants.Count == 0 ? "it has none" : $"it has {string.Join(", ", constants.Select(k => k.Name))}";
                throw new NotSupportedException($"{detector}: there is no constant {name}; {there}");
            }

            if (!(value >= key.Minimum && value <= key.Maximum) || (key.IsWhole && value != Math.Floor(value)))
            {
                throw new NotSupportedException(
                    $"{detector}: {name} = {value.ToString("R", CultureInfo.InvariantCulture)} must be {key.RangeText} {key.Unit}".TrimEnd());
            }
        }
    }

    /// <summary>Refuses lists of constants that a study could not use.</summary>
    /// <param name="detector">What the sentence calls the detector.</param>
    /// <param name="constants">What the detector lists.</param>
    /// <exception cref="NotSupportedException">The list is wrong; the message says how.</exception>
    public static void CheckList(string detector, IReadOnlyList<NumberKey> constants)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (NumberKey key in constants)
        {
            if (!IsName(key.Name))
            {
                throw new NotSupportedException(
                    $"{detector}: constant {key.Name} must be named {Prefix} and then lower-case letters, digits and underscores, a letter first");
            }

            if (!seen.Add(key.Name))
            {
                throw new NotSupportedException($"{detector}: constant {key.Name} is there twice");
            }

            if (!double.IsFinite(key.Minimum) || !double.IsFinite(key.Maximum) || !(key.Default >= key.Minimum && key.Default <= key.Maximum))
            {
                throw new NotSupportedException(
                    $"{detector}: constant {key.Name} needs finite limits with its default between them; it has {key.RangeText}, default {key.DefaultText}");
            }
        }
    }

    private static bool IsName(string name)
    {
        if (!name.StartsWith(Prefix, StringComparison.Ordinal) || name.Length == Prefix.Length)
        {
            return false;
        }

        string rest = name[Prefix.Length..];
        return char.IsAsciiLetterLower(rest[0]) && rest.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '_');
    }
}
