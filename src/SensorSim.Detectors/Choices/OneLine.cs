// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Detectors.Choices;

/// <summary>Texts of foreign code as one line that does nothing to a terminal.</summary>
public static class OneLine
{
    /// <summary>
    /// A text whose line ends and control characters are spaces, and whose format characters (Unicode's category Cf: those that turn the direction of
    /// writing or have no width) are left out.
    /// </summary>
    /// <param name="text">The text; null counts as empty.</param>
    public static string Of(string? text)
    {
        var line = new StringBuilder();
        foreach (Rune rune in (text ?? "").ReplaceLineEndings(" ").EnumerateRunes())
        {
            UnicodeCategory category = Rune.GetUnicodeCategory(rune);
            if (category != UnicodeCategory.Format)
            {
                line.Append(category == UnicodeCategory.Control ? new Rune(' ') : rune);
            }
        }

        return line.ToString().Trim();
    }
}
