// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Detectors.Programs;

/// <summary>A command as one text: words between spaces, quotation marks around words that hold spaces.</summary>
public static class CommandText
{
    /// <summary>Takes a text apart.</summary>
    /// <param name="text">For example <c>python3 "my detector.py" --fast</c>; no shell looks at it.</param>
    /// <returns>The words, at least one.</returns>
    /// <exception cref="FormatException">There is no word, or a quotation mark is open; one sentence.</exception>
    public static IReadOnlyList<string> Words(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var words = new List<string>();
        var word = new StringBuilder();
        bool isInWord = false;
        char quote = '\0';
        foreach (char c in text)
        {
            if (quote != '\0' ? c == quote : c is '"' or '\'')
            {
                quote = quote == '\0' ? c : '\0';
                isInWord = true;
            }
            else if (quote == '\0' && char.IsWhiteSpace(c))
            {
                EndWord();
            }
            else
            {
                word.Append(c);
                isInWord = true;
            }
        }

        if (quote != '\0')
        {
            throw new FormatException($"the command {text} has an open quotation mark ({quote}); close it");
        }

        EndWord();
        return words.Count > 0 && words[0].Length > 0 ? words : throw new FormatException("the command has no word; name a program, and what it is to be told, with spaces between");

        void EndWord()
        {
            if (isInWord)
            {
                words.Add(word.ToString());
            }

            word.Clear();
            isInWord = false;
        }
    }

    /// <summary>The words as one text that <see cref="Words"/> reads.</summary>
    /// <param name="command">The words, without quotation marks in them.</param>
    public static string Of(IReadOnlyList<string> command)
    {
        ArgumentNullException.ThrowIfNull(command);
        return string.Join(' ', command.Select(w => w.Length == 0 || w.Any(char.IsWhiteSpace) ? $"\"{w}\"" : w));
    }
}
