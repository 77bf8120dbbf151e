// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Identity;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>A set as it lies on the disk: its files, their sums, its manifest as far as it can be read, and the sum beside it.</summary>
/// <remarks>A sum is made when it is asked for, and only of a file of the right size: a file of the wrong one, however large, costs nothing.</remarks>
internal sealed class SetOnDisk
{
    // A picture of some signals has some hundred kilobytes; no manifest need say of it how large it is.
    private const long LargestPicture = 1 << 26;

    private static readonly string s_emptySum = Sha256Sum.Of([]);

    private readonly ConcurrentDictionary<string, (string? Sum, string Fault)> _sums = new(StringComparer.Ordinal);

    private SetOnDisk(string folder, IReadOnlyDictionary<string, FoundFile> files)
    {
        Folder = folder;
        Files = files;
    }

    /// <summary>Path of the folder.</summary>
    public string Folder { get; }

    /// <summary>Every file, by its path.</summary>
    public IReadOnlyDictionary<string, FoundFile> Files { get; }

    /// <summary>Files of which a sum was asked for so far.</summary>
    public IEnumerable<string> Summed => _sums.Keys;

    /// <summary>Bytes of the manifest; null when there is none.</summary>
    public byte[]? ManifestBytes { get; private set; }

    /// <summary>The manifest; null when it cannot be read.</summary>
    public SetManifest? Manifest { get; private set; }

    /// <summary>Why the manifest cannot be read.</summary>
    public string ManifestFault { get; private set; } = "";

    /// <summary>Bytes of the sum beside the manifest; null when there is none.</summary>
    public byte[]? SidecarBytes { get; private set; }

    /// <summary>Whether the sum beside the manifest is the manifest's.</summary>
    public bool IsPaired => ManifestBytes is not null && SidecarBytes is not null && SidecarBytes.AsSpan().SequenceEqual(SetManifestWriter.Sidecar(Sha256Sum.Of(ManifestBytes)));

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

        var disk = new SetOnDisk(folder, found.ToDictionary(f => f.Path, StringComparer.Ordinal));
        disk.ReadManifest();

        // Every core at once, ahead of those who ask.
        Parallel.ForEach(disk.Manifest?.Files ?? [], file => disk.IsWhole(file));
        return disk;
    }

    /// <summary>Path on the disk.</summary>
    /// <param name="path">Path in the set.</param>
    public string FullPath(string path) => Path.Combine(Folder, path);

    /// <summary>Whether a file is there with a size and a sum.</summary>
    /// <param name="file">What the manifest says of it.</param>
    public bool IsWhole(ManifestFile file) =>
        Files.TryGetValue(file.Path, out FoundFile? found) && found.Bytes == file.Bytes && SumOf(file.Path).Sum == file.Sha256;

    /// <summary>Why a file cannot be read; empty when it can.</summary>
    /// <param name="path">Path in the set.</param>
    public string FaultOf(string path)
    {
        if (_sums.TryGetValue(path, out (string? Sum, string Fault) known))
        {
            return known.Fault;
        }

        try
        {
            if (Files[path].Bytes > 0)
            {
                File.OpenHandle(FullPath(path)).Dispose();
            }

            return "";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return e.Message;
        }
    }

    /// <summary>A picture as it lies there; null when it is not there, cannot be read or is too large for one.</summary>
    /// <param name="path">Path in the set.</param>
    public ManifestFile? Picture(string path) =>
        Files.TryGetValue(path, out FoundFile? found) && found.Bytes <= LargestPicture && SumOf(path).Sum is string sum ? new ManifestFile(path, found.Bytes, sum) : null;

    private (string? Sum, string Fault) SumOf(string path) => _sums.GetOrAdd(path, own =>
    {
        try
        {
            // Pipes and devices show no size; opening one might wait without end.
            return (Files[own].Bytes == 0 ? s_emptySum : SetFolder.Sha256Of(FullPath(own)), "");
        }
        catch (Exception e) when (e is InputFileException or IOException)
        {
            return (null, e.Message);
        }
    });

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
