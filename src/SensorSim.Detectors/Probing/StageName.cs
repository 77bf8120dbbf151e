// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.FixedPoint;

namespace SensorSim.Detectors.Probing;

/// <summary>The text forms of <see cref="ProbePoint"/>: its name in lower case with underscores, for example <c>ecg_band_pass</c>.</summary>
public static class StageName
{
    private static readonly string[] s_texts = [.. Enum.GetValues<ProbePoint>().Select(p => Snake(p.ToString()))];

    /// <summary>Every stage in text form, in the order of the flow.</summary>
    public static IReadOnlyList<string> All => s_texts;

    /// <summary>Text form.</summary>
    /// <param name="point">A defined point.</param>
    public static string Text(this ProbePoint point) => s_texts[(int)point];

    /// <summary>Reads a text form; exact, case-sensitive.</summary>
    /// <param name="text">Text such as <c>pulse_slope</c>.</param>
    /// <param name="point">The point, when the text is known.</param>
    /// <returns>Whether the text is a stage.</returns>
    public static bool TryParse(string text, out ProbePoint point)
    {
        int index = Array.IndexOf(s_texts, text);
        point = index < 0 ? default : (ProbePoint)index;
        return index >= 0;
    }

    private static string Snake(string name)
    {
        var text = new StringBuilder(name.Length + 4);
        foreach (char letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0)
            {
                text.Append('_');
            }

            text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }
}
