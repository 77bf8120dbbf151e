// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>Joins the parts of a study that several machines made.</summary>
public static class ShardMerge
{
    /// <summary>Reads the rows of all parts.</summary>
    /// <param name="folders">Folders of the parts, in any order.</param>
    /// <param name="plan">The study.</param>
    /// <param name="identity">Its identity.</param>
    /// <returns>The rows of the whole study, in order of their numbers.</returns>
    /// <exception cref="InputFileException">A part is of another study or version, is unfinished, is missing, or is there twice.</exception>
    /// <exception cref="IOException">A journal cannot be read.</exception>
    public static IReadOnlyList<RunRow> Read(IReadOnlyList<string> folders, StudyPlan plan, StudyIdentity identity)
    {
        ArgumentNullException.ThrowIfNull(folders);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(identity);
        var stamp = StudyStamp.Of(plan, identity, Shard.Whole);
        var folderOf = new Dictionary<int, string>();
        var rows = new SortedDictionary<long, RunRow>();
        int count = 0;
        foreach (string folder in folders)
        {
            string path = Path.Combine(folder, SweepFolder.JournalName);
            if (!File.Exists(path))
            {
                throw new InputFileException(folder, 0, 0, $"there is no {SweepFolder.JournalName} in this folder; give the folders that sweep --shard wrote.");
            }

            Shard shard = default;
            IReadOnlyCollection<RunRow> own = StudyJournal.Read(path, found =>
            {
                shard = found.Shard;
                Check(found, path, stamp, count, folderOf);
            });
            long expected = shard.RunCount(plan.RunCount);
            if (own.Count < expected)
            {
                throw new InputFileException(path, 0, 0, $"shard {shard} has {own.Count} of its {expected} runs; finish it by the command that began it.");
            }

            count = shard.Count;
            folderOf.Add(shard.Number, folder);
            foreach (RunRow row in own)
            {
                rows.Add(row.Run, row);
            }
        }

        int[] missing = [.. Enumerable.Range(1, count).Where(n => !folderOf.ContainsKey(n))];
        return missing.Length == 0
            ? [.. rows.Values]
            : throw new InputFileException(
                folders[^1], 0, 0, $"with this folder {folderOf.Count} of {count} shards are there; give also {string.Join(", ", missing.Take(5).Select(n => new Shard(n, count)))}{(missing.Length > 5 ? " and more" : "")}.");
    }

    private static void Check(StudyStamp found, string path, StudyStamp stamp, int count, Dictionary<int, string> folderOf)
    {
        if (stamp.DifferenceFrom(found) is string difference)
        {
            throw new InputFileException(path, 0, 0, $"{difference}; all shards must be of this study and this version.");
        }

        if (count != 0 && found.Shard.Count != count)
        {
            throw new InputFileException(path, 0, 0, $"this is shard {found.Shard}, but the folders before it hold parts of {count}; give the parts of one division.");
        }

        if (folderOf.TryGetValue(found.Shard.Number, out string? other))
        {
            throw new InputFileException(path, 0, 0, $"this is shard {found.Shard}, which is in {other} too; give each shard once.");
        }
    }
}
