// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Puts lines under each other; long ones go on in the next line, deeper, from a place where few parentheses are open.</summary>
internal static class LineWrap
{
    private const int Width = 140;
    private const int Step = 4;

    /// <summary>Writes one line.</summary>
    public static void Append(StringBuilder text, Line line)
    {
        string rest = line.Text;
        int indent = line.Text.Length == 0 ? 0 : line.Indent * Step;
        bool isFirst = true;
        while (true)
        {
            int room = Width - indent - (isFirst ? 0 : Step);
            int cut = rest.Length <= room || rest.StartsWith("/*", StringComparison.Ordinal) || rest.StartsWith(" *", StringComparison.Ordinal) ? rest.Length : CutAt(rest, room);
            text.Append(' ', indent + (isFirst ? 0 : Step)).Append(rest.AsSpan(0, cut).TrimEnd()).Append('\n');
            if (cut == rest.Length)
            {
                return;
            }

            rest = rest[cut..].TrimStart();
            isFirst = false;
        }
    }

    // The place with the fewest open parentheses, of these the last; before an operator or after a comma.
    private static int CutAt(string text, int room)
    {
        int best = text.Length;
        int fewest = int.MaxValue;
        int depth = 0;
        for (int i = 0; i < room && i < text.Length; i++)
        {
            depth += text[i] is '(' or '{' ? 1 : text[i] is ')' or '}' ? -1 : 0;
            bool isComma = i > 0 && text[i] == ' ' && text[i - 1] is ',' or ';';
            bool isOperator = text[i] == ' ' && (StartsWithAny(text, i + 1, "&& ", "|| ", "? ", ": ", "+ ", "- "));
            if (i > room / 3 && (isComma || isOperator) && depth <= fewest)
            {
                (best, fewest) = (i + 1, depth);
            }
        }

        return best;
    }

    private static bool StartsWithAny(string text, int at, params ReadOnlySpan<string> starts)
    {
        foreach (string start in starts)
        {
            if (string.CompareOrdinal(text, at, start, 0, start.Length) == 0)
            {
                return true;
            }
        }

        return false;
    }
}
