// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace SensorSim.Cli.Options;

/// <summary>Options that hold numbers: read the same in every culture, finite, in range.</summary>
internal static class NumberOption
{
    /// <summary>An option with a real number.</summary>
    /// <param name="name">Name with dashes.</param>
    /// <param name="description">One sentence with the unit.</param>
    /// <param name="minimum">Smallest allowed value.</param>
    /// <param name="maximum">Largest allowed value.</param>
    public static Option<double?> Real(string name, string description, double minimum, double maximum) => new(name)
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{description} ({minimum:R} to {maximum:R})"),
        HelpName = "NUMBER",
        CustomParser = result =>
        {
            string text = Text(result);
            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= minimum && value <= maximum)
            {
                return value;
            }

            result.AddError(string.Create(
                CultureInfo.InvariantCulture, $"{name} {text} must be a number from {minimum:R} to {maximum:R}, with a point for decimals"));
            return null;
        },
    };

    /// <summary>An option with a whole number.</summary>
    /// <param name="name">Name with dashes.</param>
    /// <param name="description">One sentence with the unit.</param>
    /// <param name="minimum">Smallest allowed value.</param>
    /// <param name="maximum">Largest allowed value.</param>
    public static Option<long?> Whole(string name, string description, long minimum, long maximum) => new(name)
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{description} ({minimum} to {maximum})"),
        HelpName = "N",
        CustomParser = result =>
        {
            string text = Text(result);
            if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value) && value >= minimum && value <= maximum)
            {
                return value;
            }

            result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} {text} must be a whole number from {minimum} to {maximum}"));
            return null;
        },
    };

    private static string Text(ArgumentResult result) => result.Tokens.Count == 0 ? "" : result.Tokens[0].Value;
}
