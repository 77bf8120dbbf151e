// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Clusters;

/// <summary>Words of a POSIX shell command.</summary>
internal static class ShellWords
{
    /// <summary>A word that the shell takes as it stands.</summary>
    public static string Quote(string word) => $"'{word.Replace("'", "'\\''", StringComparison.Ordinal)}'";

    /// <summary>Several words.</summary>
    public static string Quote(IEnumerable<string> words) => string.Join(' ', words.Select(Quote));
}
