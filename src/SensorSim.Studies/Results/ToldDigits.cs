// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.Results;

/// <summary>Numbers with as many digits as their interval gives a meaning to; for people, files have them all.</summary>
/// <remarks>
/// The width of the interval gets two significant digits (common practice for an uncertainty), and value and ends get its decimals. An interval that lies
/// on one side of 0 never reads as if it touched 0.
/// </remarks>
public static class ToldDigits
{
    private const int Most = 9;

    /// <summary>Decimals of a value and of its interval.</summary>
    /// <param name="value">The value.</param>
    /// <param name="interval">Its interval; an open end does not count.</param>
    /// <returns>Decimals; null where the interval gives none: there is none, it has no width, or both of its ends are open.</returns>
    public static int? Decimals(double value, Interval? interval)
    {
        if (interval is not Interval i || !double.IsFinite(value))
        {
            return null;
        }

        double low = double.IsFinite(i.Low) ? i.Low : value;
        double high = double.IsFinite(i.High) ? i.High : value;
        if (!(high > low))
        {
            return null;
        }

        int decimals = 1 - Magnitude(high - low);
        if (i.Low > 0 || i.High < 0)
        {
            double nearest = i.Low > 0 ? low : -high;
            decimals = Math.Max(decimals, -Magnitude(nearest));
        }

        return Math.Clamp(decimals, 0, Most);
    }

    /// <summary>A number with so many decimals; with five significant digits where none are known, and a dash where there is no number.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals.</param>
    public static string Text(double? value, int? decimals)
    {
        if (value is not double number || double.IsNaN(number))
        {
            return "-";
        }

        if (!double.IsFinite(number))
        {
            return number > 0 ? "+inf" : "-inf";
        }

        string text = decimals is int digits ? number.ToString($"F{digits}", CultureInfo.InvariantCulture) : (number + 0.0).ToString("G5", CultureInfo.InvariantCulture);
        return text.AsSpan().IndexOfAnyInRange('1', '9') < 0 ? text.TrimStart('-') : text;
    }

    /// <summary>As <see cref="Text(double?, int?)"/>, with more decimals where the number would read as if it lay on the other side of a limit.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals.</param>
    /// <param name="isMetBy">Whether a number meets the limit.</param>
    public static string Text(double? value, int? decimals, Func<double?, bool> isMetBy)
    {
        ArgumentNullException.ThrowIfNull(isMetBy);
        string text = Text(value, decimals);
        while (decimals < Most && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double told) && isMetBy(told) != isMetBy(value))
        {
            text = Text(value, ++decimals);
        }

        return text;
    }

    /// <summary>Both ends; a dash where there is no interval.</summary>
    /// <param name="interval">The interval.</param>
    /// <param name="decimals">Decimals.</param>
    public static string Text(Interval? interval, int? decimals) => interval is Interval i ? $"{Text(i.Low, decimals)} to {Text(i.High, decimals)}" : "-";

    // Place of the first significant digit: 0 for 1 to 9.99, -1 for 0.1 to 0.99.
    private static int Magnitude(double value) => (int)Math.Floor(Math.Log10(value));
}
