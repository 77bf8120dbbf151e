// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Choices;

/// <summary>Texts of foreign code as one line that does nothing to a terminal.</summary>
public static class OneLine
{
    /// <summary>A text whose line ends and control characters are spaces.</summary>
    /// <param name="text">The text; null counts as empty.</param>
    public static string Of(string? text) =>
        string.Concat((text ?? "").ReplaceLineEndings(" ").Select(c => char.IsControl(c) ? ' ' : c)).Trim();
}
