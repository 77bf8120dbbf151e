// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Studies.Sweeps;

/// <summary>Texts of a study's values.</summary>
public static class ValueText
{
    /// <summary>A number so that it reads back to the bit, or a word as it is.</summary>
    /// <param name="value">A number or a word.</param>
    public static string Of(object value) => value switch
    {
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        string word => word,
        _ => throw new ArgumentException($"A value is a number or a word, not {value?.GetType().Name ?? "nothing"}.", nameof(value)),
    };
}
