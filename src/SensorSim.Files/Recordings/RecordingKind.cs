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
    private static readonly string[] s_endings = [".bdf", ".edf"];

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

    /// <summary>The EDF and BDF files of a folder, by name; of two that differ in their ending only, the BDF file: it is the same in another form.</summary>
    /// <param name="folder">Path of the folder.</param>
    public static IEnumerable<string> EdfFiles(string folder) => Directory.EnumerateFiles(folder)
        .Where(f => s_endings.Contains(Path.GetExtension(f), StringComparer.OrdinalIgnoreCase)).Order(StringComparer.OrdinalIgnoreCase)
        .DistinctBy(Path.GetFileNameWithoutExtension, StringComparer.Ordinal).Order(StringComparer.Ordinal);

    /// <summary>Whether a file has a form that is written here for other programs and not read.</summary>
    /// <param name="path">Path of the file.</param>
    /// <returns>Name of the form; null when it has none of them.</returns>
    public static string? WrittenOnly(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        Span<byte> first = stackalloc byte[6];
        first = first[..file.ReadAtLeast(first, first.Length, throwOnEndOfStream: false)];
        return first.StartsWith("PAR1"u8) ? "Parquet" : first is [0x93, .. var rest] && rest.SequenceEqual("NUMPY"u8) ? "NPY" : null;
    }

    /// <summary>Whether a table is one channel of a folder of CSV files.</summary>
    /// <param name="columns">Its columns.</param>
    public static bool IsChannelOfFolder(IReadOnlyList<string> columns) => columns.SequenceEqual(RecordingNames.SamplesHeader.Split(','));

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
