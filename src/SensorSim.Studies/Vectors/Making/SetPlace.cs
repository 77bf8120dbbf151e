// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>The folder that a set is made into: empty, or holding an earlier set, which the new one takes the place of.</summary>
public sealed class SetPlace
{
    private readonly string _folder;
    private readonly IReadOnlyList<string> _old;

    private SetPlace(string folder, IReadOnlyList<string> old)
    {
        _folder = folder;
        _old = old;
    }

    /// <summary>Looks at a folder before anything is made.</summary>
    /// <param name="folder">Its path; it need not exist.</param>
    /// <param name="plan">What is to be made; its own files may lie there already.</param>
    /// <exception cref="InputFileException">It holds what belongs to no set, or a link.</exception>
    public static SetPlace Look(string folder, SetPlan plan)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentNullException.ThrowIfNull(plan);
        if (!Directory.Exists(folder))
        {
            return new SetPlace(folder, []);
        }

        IReadOnlyList<FoundFile> found = SetFolder.Files(folder);
        HashSet<string> known = [SetNames.Manifest, SetNames.Sidecar, SetNames.Plan, .. plan.Sources.Select(s => s.Path), .. plan.Attached.Select(s => s.Path)];
        string manifest = Path.Combine(folder, SetNames.Manifest);
        if (found.Any(f => f.Path == SetNames.Manifest))
        {
            // A damaged manifest is read as far as it goes: a set that cannot be read is not replaced silently.
            SetManifest old = SetManifestReader.Read(SetFolder.ReadSmall(manifest, SetManifestReader.LargestBytes), manifest);
            known.UnionWith(old.Files.Select(f => f.Path));
        }

        return found.FirstOrDefault(f => !known.Contains(f.Path)) is FoundFile foreign
            ? throw new InputFileException(Path.Combine(folder, foreign.Path), 0, 0, "belongs to no vector set; name a folder of its own for the set, or move this file away.")
            : new SetPlace(folder, [.. found.Select(f => f.Path)]);
    }

    /// <summary>Removes what an earlier set left there and the new one does not have, once the new one is in place.</summary>
    /// <param name="made">The new set.</param>
    public void RemoveOld(SetManifest made)
    {
        ArgumentNullException.ThrowIfNull(made);
        HashSet<string> kept = [SetNames.Manifest, SetNames.Sidecar, .. made.Files.Select(f => f.Path)];
        foreach (string path in _old.Where(p => !kept.Contains(p)))
        {
            string full = Path.Combine(_folder, path);
            File.Delete(full);
            for (string at = Path.GetDirectoryName(full)!; at.Length > _folder.Length && !Directory.EnumerateFileSystemEntries(at).Any(); at = Path.GetDirectoryName(at)!)
            {
                Directory.Delete(at);
            }
        }
    }
}
