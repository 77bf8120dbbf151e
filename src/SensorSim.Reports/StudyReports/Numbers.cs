// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Results;

namespace SensorSim.Reports.StudyReports;

/// <summary>Numbers as text.</summary>
internal static class Numbers
{
    internal const string None = Html.Table.Nothing;

    /// <summary>Exactly, so that it reads back to the bit; empty when there is none. For files.</summary>
    internal static string Exact(double? value) => value is double v ? v.ToString("R", CultureInfo.InvariantCulture) : "";

    /// <summary>Five significant digits, for a page.</summary>
    internal static string Short(double? value) => value switch
    {
        null => None,
        double v when double.IsNaN(v) => None,
        double v when double.IsPositiveInfinity(v) => "∞",
        double v when double.IsNegativeInfinity(v) => "−∞",
        double v => Rounded(v),
    };

    /// <summary>With the digits that an interval gives a meaning to, for a page; with five where it gives none.</summary>
    internal static string Told(double? value, int? decimals) =>
        value is double v && double.IsFinite(v) && decimals is not null ? ToldDigits.Text(v, decimals) : Short(value);

    /// <summary>Both ends, for a page.</summary>
    internal static string Short(Interval? interval) => interval is Interval i ? $"{Short(i.Low)} to {Short(i.High)}" : None;

    /// <summary>A value of a key, a number or a word, short.</summary>
    internal static string Level(object value) => value is double number ? (number + 0.0).ToString("G6", CultureInfo.InvariantCulture) : (string)value;

    /// <summary>A value of a key, exactly.</summary>
    internal static string ExactLevel(object value) => value is double number ? Exact(number) : (string)value;

    /// <summary>Four significant digits, for a cell of a map; what is not 1 never reads as 1.</summary>
    internal static string InCell(double value)
    {
        string text = value.ToString("G4", CultureInfo.InvariantCulture);
        return text == "1" && value < 1 ? "<1" : text;
    }

    internal static string Unsigned(ulong value) => value.ToString(CultureInfo.InvariantCulture);

    internal static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    // Five significant digits, but whole numbers in full; and what is not 1 never reads as 1.
    private static string Rounded(double value)
    {
        if (value == Math.Truncate(value) && Math.Abs(value) < 1e9)
        {
            return (value + 0.0).ToString("0", CultureInfo.InvariantCulture);
        }

        string text = value.ToString("G5", CultureInfo.InvariantCulture);
        return text is "1" or "0" or "-1" ? value.ToString("R", CultureInfo.InvariantCulture) : text;
    }
}
