// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>How names of files and keys read in a figure.</summary>
internal static class Words
{
    /// <summary>A name in words, without the unit that it ends in: that stands beside it or on an axis, as <c>mmHg</c> for <c>systolic_sd_mmhg</c>.</summary>
    /// <param name="name">The name.</param>
    /// <param name="unit">The unit as it is written beside the name; empty when it has none.</param>
    internal static string WithoutUnit(string name, string unit)
    {
        string ending = "_" + (unit == "%" ? "percent" : unit);
        return (unit.Length > 0 && name.EndsWith(ending, StringComparison.OrdinalIgnoreCase) ? name[..^ending.Length] : name).Replace('_', ' ');
    }
}
