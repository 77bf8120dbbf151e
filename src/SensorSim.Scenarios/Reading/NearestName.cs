// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>Finds the valid name that a mistyped one most likely meant.</summary>
public static class NearestName
{
    // Longer than every name; the rest of a text decides nothing, and the effort grows with its length.
    private const int LongestCompared = 100;

    /// <summary>
    /// The nearest name: one that begins with the text, if there is one, else any; of these the one with fewest inserted, deleted, replaced or
    /// swapped characters; the first on a tie.
    /// </summary>
    /// <param name="text">What was written.</param>
    /// <param name="names">Valid names, at least one.</param>
    /// <remarks>Who leaves out the unit writes a beginning: heart.rate means heart.rate_bpm, though heart.beats has fewer edits.</remarks>
    public static string Find(string text, IEnumerable<string> names)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(names);
        string compared = text.Length > LongestCompared ? text[..LongestCompared] : text;
        string[] all = [.. names];
        string[] begin = [.. all.Where(name => name.StartsWith(compared, StringComparison.Ordinal))];
        return (begin.Length > 0 ? begin : all).MinBy(name => Distance(compared, name))
            ?? throw new ArgumentException("There is no name to choose from.", nameof(names));
    }

    // Optimal string alignment distance.
    private static int Distance(string a, string b)
    {
        var table = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
        {
            table[i, 0] = i;
        }

        for (int j = 0; j <= b.Length; j++)
        {
            table[0, j] = j;
        }

        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int replaced = table[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                int best = Math.Min(replaced, Math.Min(table[i - 1, j], table[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    best = Math.Min(best, table[i - 2, j - 2] + 1);
                }

                table[i, j] = best;
            }
        }

        return table[a.Length, b.Length];
    }
}
