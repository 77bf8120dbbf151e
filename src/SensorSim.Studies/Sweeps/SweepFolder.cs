// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files;
using SensorSim.Files.Journals;
using SensorSim.Files.Output;
using SensorSim.Files.Tables;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Sweeps;

/// <summary>The folder of a sweep: held by one process, with its journal while runs are made, with its results afterwards.</summary>
public sealed class SweepFolder : IDisposable
{
    /// <summary>Name of the journal.</summary>
    public const string JournalName = "runs.journal";

    /// <summary>Name of the journal of the runs on which constants are chosen.</summary>
    public const string TuningJournalName = "tuning.journal";

    private const string LockName = ".runs.lock";

    private readonly string _path;
    private readonly FolderLock _lock;
    private readonly List<(string Path, StudyJournal Journal)> _journals = [];

    private SweepFolder(string path, FolderLock held, bool isFinished)
    {
        _path = path;
        _lock = held;
        IsFinished = isFinished;
    }

    /// <summary>Whether the results of this very study are there already.</summary>
    public bool IsFinished { get; }

    /// <summary>What is to be said before runs are made: that rows of this very study lie here and are made again. Empty: nothing.</summary>
    public string Found { get; private init; } = "";

    /// <summary>Rows in its journals.</summary>
    public int RowCount => _journals.Sum(j => j.Journal.Count);

    /// <summary>Takes the folder of a study.</summary>
    /// <param name="path">Path of the folder; made when it is not there.</param>
    /// <param name="identity">Identity of the study.</param>
    /// <param name="shard">The part of it that is to be made.</param>
    /// <exception cref="InputFileException">The folder holds the results of something else.</exception>
    /// <exception cref="IOException">Another process holds the folder, or it cannot be read or written.</exception>
    public static SweepFolder Open(string path, StudyIdentity identity, Shard shard)
    {
        ArgumentNullException.ThrowIfNull(identity);
        FolderLock held = FolderLock.Take(path, LockName)
            ?? throw new IOException($"{path}: another sweep is at work in this folder; wait for it, or name another folder");
        try
        {
            OutputFolder.RemoveLeftovers(path);
            bool isFinished = IsFinishedAs(path, identity, shard);
            var folder = new SweepFolder(path, held, isFinished) { Found = isFinished ? "" : RowsWithoutSummary(path, identity) };
            if (folder.IsFinished)
            {
                // Between putting the results into place and removing the journals the process may have ended.
                folder.RemoveJournals();
            }

            return folder;
        }
        catch
        {
            held.Dispose();
            throw;
        }
    }

    /// <summary>Opens a journal of the folder, and goes on where it ends.</summary>
    /// <param name="name">Name of the file, <see cref="JournalName"/> for the rows of the study.</param>
    /// <param name="plan">The study whose rows it keeps.</param>
    /// <param name="identity">Its identity.</param>
    /// <param name="shard">The part of it that is to be made.</param>
    /// <exception cref="InputFileException">The journal is of something else.</exception>
    /// <exception cref="IOException">It cannot be read or written.</exception>
    public StudyJournal OpenJournal(string name, StudyPlan plan, StudyIdentity identity, Shard shard)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(identity);
        string path = Path.Combine(_path, name);
        var journal = StudyJournal.Open(path, StudyStamp.Of(plan, identity, shard));
        _journals.Add((path, journal));
        return journal;
    }

    /// <summary>Removes the journals, once the results are in place.</summary>
    public void RemoveJournals()
    {
        foreach ((_, StudyJournal journal) in _journals)
        {
            journal.Dispose();
        }

        _journals.Clear();
        File.Delete(Path.Combine(_path, JournalName));
        File.Delete(Path.Combine(_path, TuningJournalName));
    }

    /// <summary>Closes the journals and sets the folder free; when no row was ever kept, nothing stays behind.</summary>
    public void Dispose()
    {
        bool isVain = !IsFinished && RowCount == 0;
        foreach ((string path, StudyJournal journal) in _journals)
        {
            journal.Dispose();
            if (journal.Count == 0)
            {
                File.Delete(path);
            }
        }

        _lock.Dispose();
        if (isVain && !Directory.EnumerateFileSystemEntries(_path).Any())
        {
            Directory.Delete(_path);
        }
    }

    private static bool IsFinishedAs(string path, StudyIdentity identity, Shard shard)
    {
        string summary = Path.Combine(path, SweepFiles.Summary);
        if (!File.Exists(summary))
        {
            return false;
        }

        if (shard.IsWhole && IdentityIn(summary) == identity.OfAll)
        {
            return true;
        }

        throw new InputFileException(summary, 0, 0, shard.IsWhole
            ? "these are the results of another study, or of this one before it, its scenario or a detector changed; name another folder, or delete this one."
            : "this folder holds the results of a whole study; name another folder for a shard.");
    }

    // While a journal is there the study is being made, or its results were being put into place: it goes on, and nothing is lost.
    private static string RowsWithoutSummary(string path, StudyIdentity identity)
    {
        string parquet = Path.Combine(path, SweepFiles.RunsParquet);
        string[] rows = [.. new[] { parquet, Path.Combine(path, SweepFiles.RunsCsv) }.Where(File.Exists)];
        if (rows.Length == 0 || File.Exists(Path.Combine(path, JournalName)) || File.Exists(Path.Combine(path, TuningJournalName)))
        {
            return "";
        }

        return IdentityOfRows(parquet) == identity.OfAll
            ? $"{path} holds the rows of this very study, but {SweepFiles.Summary} is missing, so it does not count as finished: all files are made again"
            : throw new InputFileException(rows[0], 0, 0, $"{SweepFiles.Summary} is missing beside it, and nothing tells that these are the rows of this study; name another folder, or delete this one.");
    }

    private static string? IdentityOfRows(string parquet)
    {
        if (!File.Exists(parquet))
        {
            return null;
        }

        try
        {
            using FileStream stream = File.OpenRead(parquet);
            return TableParquetReader.ReadMetadata(stream, parquet).GetValueOrDefault(SweepFiles.IdentityName);
        }
        catch (InputFileException)
        {
            return null;
        }
    }

    private static string? IdentityIn(string summary)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(File.ReadAllBytes(summary));
            return document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty("identity", out JsonElement identity)
                && identity.ValueKind == JsonValueKind.String ? identity.GetString() : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
