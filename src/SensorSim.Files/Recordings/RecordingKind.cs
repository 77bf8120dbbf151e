// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Edf;

namespace SensorSim.Files.Recordings;

/// <summary>What a path that a user gave leads to.</summary>
public enum RecordingKind
{
    /// <summary>Nothing that is known as a recording: a scenario, or nothing at all.</summary>
    None,

    /// <summary>A folder of CSV files with <c>channels.csv</c>.</summary>
    Folder,

    /// <summary>A folder with EDF or BDF files and no <c>channels.csv</c>.</summary>
    EdfFolder,

    /// <summary>An EDF, EDF+, BDF or BDF+ file.</summary>
    Edf,

    /// <summary>A text file that is a table.</summary>
    Table,
}

/// <summary>Finds out what a path leads to.</summary>
public static class RecordingKinds
{
    private const int Look = 4096;

    /// <summary>What a path leads to. The content of a file decides, not the ending of its name; only <c>.toml</c> is always a scenario.</summary>
    /// <param name="path">The path.</param>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static RecordingKind Of(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        if (Directory.Exists(path))
        {
            return RecordingFolderReader.IsRecording(path) ? RecordingKind.Folder
                : EdfFiles(path).Any() ? RecordingKind.EdfFolder
                : RecordingKind.None;
        }

        return !File.Exists(path) || path.EndsWith(".toml", StringComparison.OrdinalIgnoreCase) ? RecordingKind.None
            : EdfFileReader.IsEdf(path) ? RecordingKind.Edf
            : IsTable(path) ? RecordingKind.Table
            : RecordingKind.None;
    }

    /// <summary>The EDF and BDF files of a folder, by name.</summary>
    /// <param name="folder">Path of the folder.</param>
    public static IEnumerable<string> EdfFiles(string folder) => Directory.EnumerateFiles(folder)
        .Where(f => Path.GetExtension(f) is ".bdf" or ".edf" or ".BDF" or ".EDF").Order(StringComparer.Ordinal);

    // A scenario has sections in brackets and keys with an equals sign; a table has neither in the first line that says anything.
    private static bool IsTable(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        byte[] bytes = new byte[Look];
        int count = file.ReadAtLeast(bytes, Look, throwOnEndOfStream: false);
        string? first = Encoding.UTF8.GetString(bytes, 0, count).TrimStart('\uFEFF').Split('\n')
            .Select(line => line.Trim()).FirstOrDefault(line => line.Length > 0 && !line.StartsWith('#'));
        return first is null || (!first.StartsWith('[') && !first.Contains('=', StringComparison.Ordinal));
    }
}
