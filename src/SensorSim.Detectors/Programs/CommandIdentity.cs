// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Signals.Identity;

namespace SensorSim.Detectors.Programs;

/// <summary>What fixes the answers of a command: its words, and the bytes of the files that they name.</summary>
internal static class CommandIdentity
{
    /// <summary>SHA-256 over the words; a word that names a file counts by the file's bytes, wherever it lies.</summary>
    /// <remarks>
    /// A program without a folder in its name (<c>python3</c>) is found by the search path and counts by its name: the same study has the same
    /// identity on machines whose interpreters differ in a byte.
    /// </remarks>
    /// <param name="command">The words.</param>
    /// <param name="folder">Folder that it runs in.</param>
    public static string Sha256(IReadOnlyList<string> command, string folder)
    {
        var text = new StringBuilder();
        for (int i = 0; i < command.Count; i++)
        {
            string path = Path.Combine(folder, command[i]);
            bool isFile = (i > 0 || HasFolder(command[i])) && File.Exists(path);
            text.Append(isFile ? $"file {Sha256Sum.OfFile(path)}\n" : $"word {command[i]}\n");
        }

        return Sha256Sum.Of(text.ToString());
    }

    /// <summary>Whether a word names a place and not only a program.</summary>
    public static bool HasFolder(string word) =>
        word.Contains(Path.DirectorySeparatorChar, StringComparison.Ordinal) || word.Contains(Path.AltDirectorySeparatorChar, StringComparison.Ordinal);
}
