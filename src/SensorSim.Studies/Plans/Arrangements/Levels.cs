// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Studies.Plans.Arrangements;

/// <summary>The values of one varied key.</summary>
internal static class Levels
{
    /// <summary>Its values, from one end of the range to the other, or those of the list.</summary>
    public static IReadOnlyList<object> Of(VariedKey varied)
    {
        if (!varied.IsRange)
        {
            return varied.Values;
        }

        var levels = new object[varied.Count];
        for (int i = 0; i < levels.Length; i++)
        {
            levels[i] = i == 0 ? varied.From : i == levels.Length - 1 ? varied.To : At(varied, (double)i / (levels.Length - 1));
        }

        return levels;
    }

    /// <summary>The value at a share of the range.</summary>
    /// <param name="varied">A range.</param>
    /// <param name="share">0 at its first end, 1 at its last.</param>
    public static double At(VariedKey varied, double share)
    {
        // The project's own power, not the machine's: the same value everywhere.
        double value = varied.IsInRatios
            ? varied.From * PortableMath.Pow(varied.To / varied.From, share)
            : varied.From + (share * (varied.To - varied.From));
        if (varied.Key is NumberKey { IsWhole: true })
        {
            value = Math.Round(value);
        }

        return Math.Clamp(Short(value), Math.Min(varied.From, varied.To), Math.Max(varied.From, varied.To));
    }

    // Tables and files show 0.3, not 0.30000000000000004.
    private static double Short(double value) => double.Parse(value.ToString("G12", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
