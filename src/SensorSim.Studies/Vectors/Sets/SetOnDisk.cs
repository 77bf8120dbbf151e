// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>A set as it lies on the disk: its files with their sums, its manifest as far as it can be read, and the sum beside it.</summary>
internal sealed class SetOnDisk
{
    private static readonly string s_emptySum = SetSums.Of([]);

    private SetOnDisk(string folder, IReadOnlyDictionary<string, FoundFile> files, IReadOnlyDictionary<string, string> sums, IReadOnlyDictionary<string, string> unreadable)
    {
        Folder = folder;
        Files = files;
        Sums = sums;
        Unreadable = unreadable;
    }

    /// <summary>Path of the folder.</summary>
    public string Folder { get; }

    /// <summary>Every file, by its path.</summary>
    public IReadOnlyDictionary<string, FoundFile> Files { get; }

    /// <summary>SHA-256 of every file that could be read.</summary>
    public IReadOnlyDictionary<string, string> Sums { get; }

    /// <summary>Files that could not be read, with the reason.</summary>
    public IReadOnlyDictionary<string, string> Unreadable { get; }

    /// <summary>Bytes of the manifest; null when there is none.</summary>
    public byte[]? ManifestBytes { get; private set; }

    /// <summary>The manifest; null when it cannot be read.</summary>
    public SetManifest? Manifest { get; private set; }

    /// <summary>Why the manifest cannot be read.</summary>
    public string ManifestFault { get; private set; } = "";

    /// <summary>Bytes of the sum beside the manifest; null when there is none.</summary>
    public byte[]? SidecarBytes { get; private set; }

    /// <summary>Whether the sum beside the manifest is the manifest's.</summary>
    public bool IsPaired => ManifestBytes is not null && SidecarBytes is not null && SidecarBytes.AsSpan().SequenceEqual(SetManifestWriter.Sidecar(SetSums.Of(ManifestBytes)));

    /// <summary>Reads a set.</summary>
    /// <param name="folder">Its folder.</param>
    /// <exception cref="InputFileException">It is no folder, or holds a link or too much.</exception>
    public static SetOnDisk Read(string folder)
    {
        IReadOnlyList<FoundFile> found = SetFolder.Files(folder);
        if (found.All(f => f.Path is not (SetNames.Manifest or SetNames.Sidecar)))
        {
            throw new InputFileException(folder, 0, 0, $"holds no {SetNames.Manifest}; give the folder of a vector set.");
        }

        var sums = new string?[found.Count];
        var faults = new string?[found.Count];
        Parallel.For(0, found.Count, i =>
        {
            try
            {
                // Pipes and devices show no size; opening one might wait without end.
                sums[i] = found[i].Bytes == 0 ? s_emptySum : SetFolder.Sha256Of(Path.Combine(folder, found[i].Path));
            }
            catch (Exception e) when (e is InputFileException or IOException)
            {
                faults[i] = e.Message;
            }
        });
        int[] all = [.. Enumerable.Range(0, found.Count)];
        var disk = new SetOnDisk(
            folder,
            found.ToDictionary(f => f.Path, StringComparer.Ordinal),
            all.Where(i => sums[i] is not null).ToDictionary(i => found[i].Path, i => sums[i]!, StringComparer.Ordinal),
            all.Where(i => faults[i] is not null).ToDictionary(i => found[i].Path, i => faults[i]!, StringComparer.Ordinal));
        disk.ReadManifest();
        return disk;
    }

    /// <summary>Path on the disk.</summary>
    /// <param name="path">Path in the set.</param>
    public string FullPath(string path) => Path.Combine(Folder, path);

    /// <summary>Whether a file is there with a size and a sum.</summary>
    /// <param name="file">What the manifest says of it.</param>
    public bool IsWhole(ManifestFile file) =>
        Files.TryGetValue(file.Path, out FoundFile? found) && found.Bytes == file.Bytes && Sums.TryGetValue(file.Path, out string? sum) && sum == file.Sha256;

    private void ReadManifest()
    {
        string path = FullPath(SetNames.Manifest);
        try
        {
            ManifestBytes = SetFolder.ReadSmall(path, SetManifestReader.LargestBytes);
            Manifest = SetManifestReader.Read(ManifestBytes, path);
        }
        catch (InputFileException e)
        {
            ManifestFault = e.Message;
        }

        if (Files.ContainsKey(SetNames.Sidecar))
        {
            try
            {
                SidecarBytes = SetFolder.ReadSmall(FullPath(SetNames.Sidecar), 4096);
            }
            catch (InputFileException)
            {
                SidecarBytes = [];
            }
        }
    }
}
