// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.TwinWriter.Naming;

/// <summary>C# names become C names.</summary>
public static class Snake
{
    // Keywords of C that are none of C#, and names that the headers of C take.
    private static readonly HashSet<string> Taken = new(StringComparer.Ordinal)
    {
        "auto", "bool", "break", "case", "char", "const", "continue", "default", "do", "double", "else", "enum", "extern", "false", "float", "for", "goto",
        "if", "inline", "int", "long", "register", "restrict", "return", "self", "short", "signed", "sizeof", "static", "struct", "switch", "true", "typedef", "union",
        "unsigned", "void", "volatile", "while", "asm", "near", "far", "huge", "interrupt",
    };

    /// <summary>BeatJudge becomes beat_judge, Ticks256 ticks256, RPeak r_peak, _isOpen is_open.</summary>
    /// <param name="name">The C# name.</param>
    /// <returns>The C name.</returns>
    public static string Of(string name)
    {
        var text = new StringBuilder(name.Length + 8);
        string plain = name.TrimStart('_', '@');
        for (int i = 0; i < plain.Length; i++)
        {
            char c = plain[i];
            bool starts = char.IsUpper(c) && i > 0 && plain[i - 1] != '_'
                && (!char.IsUpper(plain[i - 1]) || (i + 1 < plain.Length && char.IsLower(plain[i + 1])));
            if (starts)
            {
                text.Append('_');
            }

            text.Append(char.ToLowerInvariant(c));
        }

        return text.ToString();
    }

    /// <summary>The same for a local or a field, which must be no word of C.</summary>
    /// <param name="name">The C# name.</param>
    /// <returns>The C name.</returns>
    public static string OfVariable(string name)
    {
        string snake = Of(name);
        return Taken.Contains(snake) ? snake + "_" : snake;
    }

    /// <summary>The same for a constant: in capitals.</summary>
    /// <param name="name">The C# name.</param>
    /// <returns>The C name.</returns>
    public static string OfConstant(string name) => Of(name).ToUpperInvariant();
}
