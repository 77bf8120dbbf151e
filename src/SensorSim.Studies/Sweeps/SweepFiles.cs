// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Output;
using SensorSim.Files.Tables;
using SensorSim.Scenarios;

namespace SensorSim.Studies.Sweeps;

/// <summary>The files of a finished sweep.</summary>
public static class SweepFiles
{
    /// <summary>Rows, a table for other programs.</summary>
    public const string RunsParquet = "runs.parquet";

    /// <summary>Rows, a table as text.</summary>
    public const string RunsCsv = "runs.csv";

    /// <summary>Failure points.</summary>
    public const string FailurePointsCsv = "failure_points.csv";

    /// <summary>What the study came to; a folder that has it holds a finished sweep.</summary>
    /// <remarks>A folder's files are put into place in the order of their names: this one is the last.</remarks>
    public const string Summary = "summary.json";

    /// <summary>Writes them.</summary>
    /// <param name="folder">Takes them.</param>
    /// <param name="results">What the study came to.</param>
    public static void Write(OutputFolder folder, SweepResults results)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(results);
        ColumnTable runs = RunTable.Of(results.Rows);
        var metadata = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["study_title"] = results.Plan.Title,
            ["study_identity"] = results.Identity.OfAll,
            ["study_identity_of_runs"] = results.Identity.OfRuns,
            ["program_version"] = StudyIdentity.ProgramVersion,
            ["generator_version"] = Scenario.GeneratorVersion.ToString(CultureInfo.InvariantCulture),
        };
        Write(folder, RunsParquet, stream => TableParquet.Write(stream, runs, metadata));
        Write(folder, RunsCsv, stream => TableCsv.Write(stream, runs));
        Write(folder, FailurePointsCsv, stream => TableCsv.Write(stream, FailurePointTable.Of(results.Plan, results.FailurePoints)));
        Write(folder, Summary, stream => SweepJson.Write(stream, results));
    }

    // To the disk itself: when the files are in place the journal goes, and nothing may then be missing.
    private static void Write(OutputFolder folder, string name, Action<Stream> write)
    {
        using Stream stream = folder.CreateFile(name);
        write(stream);
        if (stream is FileStream file)
        {
            file.Flush(flushToDisk: true);
        }
    }
}
