// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Output;
using SensorSim.Files.Tables;
using SensorSim.Scenarios;

namespace SensorSim.Studies.Sweeps;

/// <summary>The files of a finished sweep.</summary>
public sealed class SweepFiles
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

    /// <summary>Name of the study's identity in the metadata of <see cref="RunsParquet"/>.</summary>
    public const string IdentityName = "study_identity";

    private readonly SweepResults _results;
    private readonly Lazy<ColumnTable> _runs;
    private readonly Stream _runsParquet;
    private readonly Stream _runsCsv;
    private readonly Stream _failurePointsCsv;
    private readonly Stream _summary;

    /// <summary>Begins all files; they may then be written side by side.</summary>
    /// <param name="folder">Takes them.</param>
    /// <param name="results">What the study came to.</param>
    public SweepFiles(OutputFolder folder, SweepResults results)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(results);
        _results = results;
        _runs = new(() => RunTable.Of(results.Rows));
        _runsParquet = folder.CreateFile(RunsParquet);
        _runsCsv = folder.CreateFile(RunsCsv);
        _failurePointsCsv = folder.CreateFile(FailurePointsCsv);
        _summary = folder.CreateFile(Summary);
    }

    /// <summary>Writes the rows for other programs.</summary>
    public void WriteRunsParquet()
    {
        var metadata = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["study_title"] = _results.Plan.Title,
            [IdentityName] = _results.Identity.OfAll,
            ["study_identity_of_runs"] = _results.Identity.OfRuns,
            ["program_version"] = StudyIdentity.ProgramVersion,
            ["generator_version"] = Scenario.GeneratorVersion.ToString(CultureInfo.InvariantCulture),
        };
        Write(_runsParquet, stream => TableParquet.Write(stream, _runs.Value, metadata));
    }

    /// <summary>Writes the rows as text.</summary>
    public void WriteRunsCsv() => Write(_runsCsv, stream => TableCsv.Write(stream, _runs.Value));

    /// <summary>Writes the failure points, and what the study came to.</summary>
    public void WriteSummary()
    {
        Write(_failurePointsCsv, stream => TableCsv.Write(stream, FailurePointTable.Of(_results.Plan, _results.FailurePoints)));
        Write(_summary, stream => SweepJson.Write(stream, _results));
    }

    // To the disk itself: when the files are in place the journal goes, and nothing may then be missing. What fails half-way the folder closes.
    private static void Write(Stream stream, Action<Stream> write)
    {
        write(stream);
        if (stream is FileStream file)
        {
            file.Flush(flushToDisk: true);
        }

        stream.Dispose();
    }
}
