// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Cli.Output;

/// <summary>Tables of plain text, the same on every terminal and in every file.</summary>
/// <remarks>A table is as wide as it is: what is cut off is lost in a file, and a terminal breaks lines itself.</remarks>
internal static class PlainTables
{
    private const string Edge = "  ";
    private const string Between = "   ";
    private const char Rule = '─';

    /// <summary>Prints a table.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="columns">Heads; one that ends in <c>&gt;</c> stands to the right.</param>
    /// <param name="rows">Rows.</param>
    public static void Print(TextWriter writer, IReadOnlyList<string> columns, IEnumerable<string[]> rows)
    {
        string[] heads = [.. columns.Select(c => c.TrimEnd('>'))];
        bool[] isRight = [.. columns.Select(c => c.EndsWith('>'))];
        List<string[]> lines = [heads, .. rows];
        var widths = new int[heads.Length];
        foreach (string[] line in lines)
        {
            for (int i = 0; i < widths.Length; i++)
            {
                widths[i] = Math.Max(widths[i], Places(line[i]));
            }
        }

        int width = (2 * Edge.Length) + (Between.Length * (widths.Length - 1)) + widths.Sum();
        var text = new StringBuilder();
        text.Append(' ', width).Append(writer.NewLine);
        for (int n = 0; n < lines.Count; n++)
        {
            AppendLine(text, lines[n], widths, isRight);
            text.Append(writer.NewLine);
            if (n == 0)
            {
                text.Append(Rule, width).Append(writer.NewLine);
            }
        }

        // At once: the writer passes on each call by itself.
        writer.Write(text.Append(' ', width).Append(writer.NewLine).ToString());
    }

    /// <summary>A number, or a dash where there is none; a small negative one reads 0.00, not -0.00.</summary>
    public static string Fixed(double? value, string format)
    {
        string text = value?.ToString(format, CultureInfo.InvariantCulture) ?? "-";
        bool isZero = value is not null && text.AsSpan().IndexOfAnyInRange('1', '9') < 0 && double.IsFinite(value.Value);
        return isZero ? text.TrimStart('-') : text;
    }

    private static void AppendLine(StringBuilder text, string[] cells, int[] widths, bool[] isRight)
    {
        text.Append(Edge);
        for (int i = 0; i < cells.Length; i++)
        {
            text.Append(i == 0 ? "" : Between);
            int free = widths[i] - Places(cells[i]);
            text.Append(' ', isRight[i] ? free : 0).Append(cells[i]).Append(' ', isRight[i] ? 0 : free);
        }

        text.Append(Edge);
    }

    // A terminal gives signs of East Asia and pictures two places, marks above others none.
    private static int Places(string cell) => Ascii.IsValid(cell) ? cell.Length : cell.EnumerateRunes().Sum(Places);

    private static int Places(Rune rune) => Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark ? 0 : rune.Value switch
    {
        (>= 0x1100 and <= 0x115F) or (>= 0x2E80 and <= 0xA4CF) or (>= 0xAC00 and <= 0xD7A3) or (>= 0xF900 and <= 0xFAFF) or (>= 0xFE30 and <= 0xFE6F) => 2,
        (>= 0xFF00 and <= 0xFF60) or (>= 0xFFE0 and <= 0xFFE6) or (>= 0x1F300 and <= 0x1F64F) or (>= 0x1F900 and <= 0x1F9FF) or (>= 0x20000 and <= 0x3FFFD) => 2,
        _ => 1,
    };
}
