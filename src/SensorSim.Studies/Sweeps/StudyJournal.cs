// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Journals;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>The rows of a study on disk, each as soon as it is made.</summary>
public sealed class StudyJournal : IRunLog, IDisposable
{
    private readonly Dictionary<long, RunRow> _rows;
    private readonly JournalWriter _writer;

    private StudyJournal(JournalWriter writer, Dictionary<long, RunRow> rows)
    {
        _writer = writer;
        _rows = rows;
        KeptCount = rows.Count;
    }

    /// <summary>Rows that were there when it was opened.</summary>
    public int KeptCount { get; }

    /// <summary>Rows that are there now.</summary>
    public int Count => _rows.Count;

    /// <summary>Opens the journal of a study, or begins it.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="stamp">The study and the part of it that is to be made.</param>
    /// <exception cref="InputFileException">The file is the journal of something else, or none.</exception>
    /// <exception cref="IOException">The file cannot be read or written.</exception>
    public static StudyJournal Open(string path, StudyStamp stamp)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        var rows = new Dictionary<long, RunRow>();
        if (!File.Exists(path))
        {
            return new StudyJournal(Journal.Create(path, stamp.ToBytes()), rows);
        }

        JournalWriter writer = Journal.GoOn(path, header => Check(header, path, stamp), bytes => Take(bytes, path, stamp, rows));
        return new StudyJournal(writer, rows);
    }

    /// <summary>Reads the rows of a journal and changes nothing.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="check">Looks at the stamp, and throws when this journal is not the right one.</param>
    /// <exception cref="InputFileException">The file is no journal of a study.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static IReadOnlyCollection<RunRow> Read(string path, Action<StudyStamp> check)
    {
        ArgumentNullException.ThrowIfNull(check);
        var rows = new Dictionary<long, RunRow>();
        StudyStamp? stamp = null;
        Journal.Read(
            path,
            header =>
            {
                stamp = StudyStamp.Read(header, path);
                check(stamp);
            },
            bytes => Take(bytes, path, stamp!, rows));
        return rows.Values;
    }

    /// <inheritdoc/>
    public RunRow? Find(long run) => _rows.GetValueOrDefault(run);

    /// <inheritdoc/>
    public void Add(RunRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        _rows.Add(row.Run, row);
        _writer.Append(RowBytes.Of(row));
    }

    /// <inheritdoc/>
    public void Tick() => _writer.FlushIfDue();

    /// <summary>Sends every row to the disk.</summary>
    /// <exception cref="IOException">The disk is full or fails.</exception>
    public void Flush() => _writer.Flush();

    /// <summary>Closes the file; its rows stay.</summary>
    public void Dispose() => _writer.Dispose();

    private static void Check(byte[] header, string path, StudyStamp stamp)
    {
        StudyStamp found = StudyStamp.Read(header, path);
        if (stamp.DifferenceFrom(found) is string difference)
        {
            throw new InputFileException(path, 0, 0, $"{difference}; name another folder, or delete this file to begin anew.");
        }

        if (found.Shard != stamp.Shard)
        {
            string what = found.Shard.IsWhole ? "the whole study" : $"shard {found.Shard}";
            throw new InputFileException(path, 0, 0, $"{what} was begun in this folder, not {(stamp.Shard.IsWhole ? "the whole study" : $"shard {stamp.Shard}")}; name another folder.");
        }
    }

    private static void Take(ReadOnlySpan<byte> bytes, string path, StudyStamp stamp, Dictionary<long, RunRow> rows)
    {
        RunRow row;
        try
        {
            row = RowBytes.Read(bytes);
        }
        catch (FormatException e)
        {
            throw new InputFileException(path, 0, 0, $"row {rows.Count + 1} of the journal cannot be read ({e.Message.TrimEnd('.')}); delete the file to begin anew.", e);
        }

        if (rows.TryGetValue(row.Run, out RunRow? there) && bytes.SequenceEqual(RowBytes.Of(there)))
        {
            // The very same row again, as a copied block leaves it: it counts once.
            return;
        }

        if (row.Run < 0 || row.Run >= stamp.RunCount || !stamp.Shard.Has(row.Run) || !rows.TryAdd(row.Run, row))
        {
            throw new InputFileException(path, 0, 0, $"row {rows.Count + 1} of the journal is of run {row.Run}, which does not belong there or stands there with another result; delete the file to begin anew.");
        }
    }
}
