// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Edf;
using SensorSim.Files.Recordings;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Running;

/// <summary>Opens truth in any form: <c>truth.csv</c>, a list of beats that somebody made for a recording, or a recording with its truth beside or in it.</summary>
public static class TruthFile
{
    private const string Name = "truth.csv";

    /// <summary>Opens a file; its content tells which form it has.</summary>
    /// <param name="path">Path of the file, or of a recording.</param>
    /// <param name="rateHz">Sampling rate that a list of beats counts in [Hz]; null to use its times.</param>
    /// <exception cref="InputFileException">The file is missing or not what it should be.</exception>
    public static IRowReader<TruthEvent> Open(string path, int? rateHz)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        bool isFolder = Directory.Exists(path);
        bool isEdf = IsEdf(path);
        if (!isFolder && !isEdf)
        {
            return OpenText(path, rateHz);
        }

        string beside = Path.Combine(isFolder ? path : Path.GetDirectoryName(path) ?? "", Name);
        return File.Exists(beside) ? OpenText(beside, rateHz)
            : isEdf ? OpenWithin(path) ?? throw new InputFileException(path, 0, 0, $"there is no truth in it, and no {Name} beside it; give {Name}, or a list of beats.")
            : throw new InputFileException(path, 0, 0, $"there is no {Name} in this folder; give {Name}, or a recording that has one.");
    }

    /// <summary>Whether a path leads to EDF or BDF files, alone or in a folder without a list of channels.</summary>
    /// <param name="path">The path.</param>
    public static bool IsEdf(string path) => RecordingKinds.Of(path) is RecordingKind.Edf or RecordingKind.EdfFolder;

    /// <summary>Opens the truth that stands in EDF or BDF files as annotations: rows that were written here, or beats that others marked.</summary>
    /// <param name="path">Path of the file, or of a folder of them.</param>
    /// <returns>The truth; null when there is none.</returns>
    /// <exception cref="InputFileException">The file is not what it should be.</exception>
    public static IRowReader<TruthEvent>? OpenWithin(string path) => EdfTruth.Open(path);

    private static IRowReader<TruthEvent> OpenText(string path, int? rateHz)
    {
        string header = "";
        if (File.Exists(path))
        {
            using var reader = new StreamReader(path);
            header = reader.ReadLine() ?? "";
        }

        return header.Split(',').Any(column => column.Trim() == "kind") || !File.Exists(path)
            ? new TruthCsvReader(path)
            : new BeatListCsvReader(path, rateHz);
    }
}
