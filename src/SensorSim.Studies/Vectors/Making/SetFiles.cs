// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Where the files of a set go while they are made, with the sum of each. Safe for several threads at once.</summary>
internal sealed class SetFiles
{
    private readonly Func<string, Stream> _open;
    private readonly ConcurrentDictionary<string, ManifestFile> _kept = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, ManifestFile> _passed = new(StringComparer.Ordinal);

    /// <summary>Creates it.</summary>
    /// <param name="open">Starts a file of a path in the set; called by several threads at once.</param>
    public SetFiles(Func<string, Stream> open) => _open = open;

    /// <summary>Files of the set that are closed, in ordinal order of paths.</summary>
    public IReadOnlyList<ManifestFile> Kept => [.. _kept.Values.OrderBy(f => f.Path, StringComparer.Ordinal)];

    /// <summary>Starts a file.</summary>
    /// <param name="path">Path in the set.</param>
    /// <param name="isKept">Whether it belongs to the set; else only its sum is wanted.</param>
    public Stream Create(string path, bool isKept = true)
    {
        ConcurrentDictionary<string, ManifestFile> list = isKept ? _kept : _passed;
        return new HashedStream(isKept ? _open(path) : Stream.Null, (count, sum) =>
        {
            if (!list.TryAdd(path, new ManifestFile(path, count, sum)))
            {
                throw new InvalidOperationException($"{path} was made twice.");
            }
        });
    }

    /// <summary>Writes a file whole.</summary>
    /// <param name="path">Path in the set.</param>
    /// <param name="bytes">Its bytes.</param>
    public void Write(string path, ReadOnlySpan<byte> bytes)
    {
        using Stream stream = Create(path);
        stream.Write(bytes);
    }

    /// <summary>Sum of a file that is closed, kept or not.</summary>
    /// <param name="path">Path in the set.</param>
    public string SumOf(string path) => (_kept.TryGetValue(path, out ManifestFile? kept) ? kept : _passed[path]).Sha256;
}
