// SPDX-License-Identifier: MIT
namespace SensorSim.TwinWriter.Writing;

/// <summary>The folder that the generated files lie in, among files written by hand.</summary>
public static class OutputFolder
{
    /// <summary>Writes what differs, and takes away generated files that nothing generates any longer.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="files">Texts by path beneath the folder.</param>
    /// <returns>How many files were written or taken away.</returns>
    public static int Write(string folder, IReadOnlyDictionary<string, string> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        int changed = 0;
        foreach ((string path, string text) in files)
        {
            string full = Path.Combine(folder, path);
            if (File.Exists(full) && File.ReadAllText(full) == text)
            {
                continue;
            }

            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            File.WriteAllText(full + ".new", text);
            File.Move(full + ".new", full, overwrite: true);
            changed++;
        }

        foreach (string full in Stale(folder, files))
        {
            File.Delete(full);
            changed++;
        }

        return changed;
    }

    /// <summary>Generated files that nothing generates any longer.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="files">What is generated, by path beneath the folder.</param>
    /// <returns>Their full paths.</returns>
    public static IReadOnlyList<string> Stale(string folder, IReadOnlyDictionary<string, string> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        return [.. Directory.EnumerateFiles(folder, "*.*", SearchOption.AllDirectories)
            .Where(full => !files.ContainsKey(Path.GetRelativePath(folder, full).Replace('\\', '/')))
            .Where(full => File.ReadLines(full).Skip(1).FirstOrDefault("").StartsWith(FileWriter.FirstWords, StringComparison.Ordinal))];
    }
}
