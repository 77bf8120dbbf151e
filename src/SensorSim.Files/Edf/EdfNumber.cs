// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Files.Edf;

/// <summary>Numbers in fields of eight characters.</summary>
internal static class EdfNumber
{
    /// <summary>Characters of a field.</summary>
    public const int Width = 8;

    // More than enough for anything that fits eight characters.
    private const decimal Largest = 99_999_999;
    private const int MostDecimals = 7;

    /// <summary>The number without an exponent and without zeros at the end.</summary>
    public static string Text(decimal number)
    {
        string text = number.ToString("0.############################", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    /// <summary>Whether a number fits the field as it is.</summary>
    public static bool Fits(decimal number) => Text(number).Length <= Width;

    /// <summary>The nearest number that fits the field.</summary>
    /// <exception cref="OverflowException">The number is too large for eight characters.</exception>
    public static decimal Nearest(decimal number)
    {
        if (Math.Abs(number) > Largest)
        {
            throw new OverflowException();
        }

        for (int decimals = MostDecimals; decimals >= 0; decimals--)
        {
            decimal rounded = Math.Round(number, decimals, MidpointRounding.ToEven);
            if (Fits(rounded))
            {
                return rounded;
            }
        }

        throw new OverflowException();
    }

    /// <summary>Reads a number with a decimal point; an exponent is taken, a comma is not.</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out decimal number)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return decimal.TryParse(text, Style, CultureInfo.InvariantCulture, out number);
    }
}
