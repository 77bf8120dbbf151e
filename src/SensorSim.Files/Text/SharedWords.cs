// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Text;

/// <summary>Words of a file that come again in row after row: one string for each, so that hundreds of thousands of rows may be held.</summary>
internal sealed class SharedWords
{
    // A file with more of them has no words but free text.
    private const int Most = 256;
    private readonly HashSet<string> _words = new(StringComparer.Ordinal);
    private readonly HashSet<string>.AlternateLookup<ReadOnlySpan<char>> _lookup;

    public SharedWords() => _lookup = _words.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>The string of a word.</summary>
    public string Of(ReadOnlySpan<char> word)
    {
        if (_lookup.TryGetValue(word, out string? known))
        {
            return known;
        }

        string made = word.ToString();
        if (_words.Count < Most)
        {
            _words.Add(made);
        }

        return made;
    }
}
