// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files;
using SensorSim.Files.Journals;
using SensorSim.Files.Output;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Sweeps;

/// <summary>The folder of a sweep: held by one process, with its journal while runs are made, with its results afterwards.</summary>
public sealed class SweepFolder : IDisposable
{
    /// <summary>Name of the journal.</summary>
    public const string JournalName = "runs.journal";

    private const string LockName = ".runs.lock";

    private readonly string _path;
    private readonly FolderLock _lock;
    private readonly StudyJournal? _journal;

    private SweepFolder(string path, FolderLock held, StudyJournal? journal)
    {
        _path = path;
        _lock = held;
        _journal = journal;
    }

    /// <summary>Whether the results of this very study are there already.</summary>
    public bool IsFinished => _journal is null;

    /// <summary>The journal; null when the study is finished.</summary>
    public StudyJournal? Journal => _journal;

    /// <summary>Takes the folder of a study, and goes on where its journal ends.</summary>
    /// <param name="path">Path of the folder; made when it is not there.</param>
    /// <param name="plan">The study.</param>
    /// <param name="identity">Its identity.</param>
    /// <param name="shard">The part of it that is to be made.</param>
    /// <exception cref="InputFileException">The folder holds something else.</exception>
    /// <exception cref="IOException">Another process holds the folder, or it cannot be read or written.</exception>
    public static SweepFolder Open(string path, StudyPlan plan, StudyIdentity identity, Shard shard)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(identity);
        FolderLock held = FolderLock.Take(path, LockName)
            ?? throw new IOException($"{path}: another sweep is at work in this folder; wait for it, or name another folder");
        try
        {
            OutputFolder.RemoveLeftovers(path);
            string journal = Path.Combine(path, JournalName);
            if (IsFinishedAs(path, identity, shard))
            {
                // Between putting the results into place and removing the journal the process may have ended.
                File.Delete(journal);
                return new SweepFolder(path, held, null);
            }

            return new SweepFolder(path, held, StudyJournal.Open(journal, StudyStamp.Of(plan, identity, shard)));
        }
        catch
        {
            held.Dispose();
            throw;
        }
    }

    /// <summary>Removes the journal, once the results are in place.</summary>
    public void RemoveJournal()
    {
        _journal?.Dispose();
        File.Delete(Path.Combine(_path, JournalName));
    }

    /// <summary>Closes the journal and sets the folder free; when no row was ever kept, nothing stays behind.</summary>
    public void Dispose()
    {
        _journal?.Dispose();
        bool isVain = _journal is { Count: 0 };
        if (isVain)
        {
            File.Delete(Path.Combine(_path, JournalName));
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
