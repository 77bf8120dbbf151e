// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Grading.Report;

/// <summary>Numbers as text.</summary>
internal static class Figures
{
    /// <summary>Two decimals; a small negative number reads 0.00, not -0.00; "-" when undefined.</summary>
    public static string Text(double? value)
    {
        string text = value?.ToString("0.00", CultureInfo.InvariantCulture) ?? "-";
        return text == "-0.00" ? "0.00" : text;
    }

    /// <summary>How far a figure lies beside its limit: two decimals, more when it is close.</summary>
    public static string Gap(double value) =>
        value.ToString(value >= 0.01 ? "0.##" : "G1", CultureInfo.InvariantCulture);
}
