// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Tables;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Comparisons;

/// <summary>A finished sweep, read back from its folder.</summary>
/// <param name="Place">The folder as the user named it.</param>
/// <param name="Summary">What its summary says.</param>
/// <param name="Results">Plan and rows.</param>
public sealed record FinishedSweep(string Place, SweepSummary Summary, StudyResults Results)
{
    /// <summary>Reads a folder.</summary>
    /// <param name="path">The folder, or the <c>summary.json</c> in it.</param>
    /// <exception cref="InputFileException">It is no folder of a finished sweep, or its files do not belong together.</exception>
    public static FinishedSweep Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string folder = Path.GetFileName(path) == SweepFiles.Summary && File.Exists(path) ? Path.GetDirectoryName(path) is { Length: > 0 } parent ? parent : "." : path;
        string summaryFile = Path.Combine(folder, SweepFiles.Summary);
        string rowsFile = Path.Combine(folder, SweepFiles.RunsParquet);
        if (!File.Exists(summaryFile) || !File.Exists(rowsFile))
        {
            throw new InputFileException(path, 0, 0, !Directory.Exists(folder) ? "there is no such folder; give the folder of a finished sweep."
                : File.Exists(Path.Combine(folder, SweepFolder.JournalName)) ? "the sweep in this folder is not finished; the same sweep command goes on with it."
                : File.Exists(summaryFile) ? $"{SweepFiles.RunsParquet} is missing; sweep the study into a new folder."
                : File.Exists(rowsFile) ? $"{SweepFiles.Summary} is missing; the same sweep command makes it again."
                : $"{SweepFiles.Summary} and {SweepFiles.RunsParquet} are missing; give the folder of a finished sweep.");
        }

        SweepSummary summary = SummaryReader.Read(File.ReadAllBytes(summaryFile), summaryFile);
        using FileStream stream = File.OpenRead(rowsFile);
        (ColumnTable table, IReadOnlyDictionary<string, string> metadata) = TableParquetReader.Read(stream, rowsFile);
        if (metadata.GetValueOrDefault(SweepFiles.IdentityName) != summary.IdentityOfAll)
        {
            throw new InputFileException(path, 0, 0, $"{SweepFiles.RunsParquet} and {SweepFiles.Summary} are of different studies; sweep into a folder of its own.");
        }

        try
        {
            return new FinishedSweep(path, summary, new StudyResults(summary.Plan, RunTableReader.Rows(table, rowsFile)));
        }
        catch (ArgumentException e)
        {
            throw new InputFileException(rowsFile, 0, 0, $"its runs are not those of {SweepFiles.Summary}.", e);
        }
    }
}
