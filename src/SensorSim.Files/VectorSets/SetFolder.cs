// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Identity;

namespace SensorSim.Files.VectorSets;

/// <summary>The folder of a vector set as it lies on the disk: nothing in it leads out of it.</summary>
public static class SetFolder
{
    /// <summary>Most files of a set.</summary>
    public const int MostFiles = 20_000;

    private const int MostDepth = 16;

    /// <summary>Every file with its size, in ordinal order; empty folders do not count.</summary>
    /// <param name="folder">Path of the folder.</param>
    /// <exception cref="InputFileException">There is no such folder, something in it is a link, or there is too much of it.</exception>
    public static IReadOnlyList<FoundFile> Files(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        if (!Directory.Exists(folder))
        {
            throw new InputFileException(folder, 0, 0, "there is no such folder; give the folder of a vector set.");
        }

        var found = new List<FoundFile>();
        Add(folder, "", 0, found);
        found.Sort((a, b) => string.CompareOrdinal(a.Path, b.Path));
        return found;
    }

    /// <summary>SHA-256 of a file, 64 lower-case hexadecimal digits.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="InputFileException">It cannot be read.</exception>
    public static string Sha256Of(string path)
    {
        using FileStream file = InputFiles.OpenRead(path);
        return Sha256Sum.Of(file);
    }

    /// <summary>Reads a small file whole.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="largestBytes">Largest size.</param>
    /// <exception cref="InputFileException">It is missing, empty, unreadable or larger.</exception>
    public static byte[] ReadSmall(string path, int largestBytes)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var info = new FileInfo(path);

        // An empty size is also what a pipe or a device shows, which must not be opened: it might never answer.
        if (info.Exists && (info.Length == 0 || info.LinkTarget is not null))
        {
            throw new InputFileException(path, 0, 0, info.LinkTarget is null ? "is empty." : "is a link; a set holds plain files.");
        }

        using FileStream file = InputFiles.OpenRead(path);
        if (file.Length > largestBytes)
        {
            throw new InputFileException(path, 0, 0, FormattableString.Invariant($"has {file.Length} bytes; at most {largestBytes} belong there."));
        }

        byte[] bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    }

    private static void Add(string folder, string prefix, int depth, List<FoundFile> found)
    {
        foreach (FileSystemInfo entry in new DirectoryInfo(folder).EnumerateFileSystemInfos())
        {
            string path = prefix + entry.Name;
            if (entry.LinkTarget is not null || (entry.Attributes & FileAttributes.ReparsePoint) != 0)
            {
                throw new InputFileException(Path.Combine(folder, entry.Name), 0, 0, entry.LinkTarget is not null
                    ? "is a link; a set holds plain files and folders, copy what it leads to or remove it."
                    : "is no plain file; a set holds plain files and folders, remove it.");
            }

            if (entry is DirectoryInfo)
            {
                if (depth == MostDepth)
                {
                    throw new InputFileException(Path.Combine(folder, entry.Name), 0, 0, FormattableString.Invariant($"lies more than {MostDepth} folders deep; this is no vector set."));
                }

                Add(Path.Combine(folder, entry.Name), path + "/", depth + 1, found);
                continue;
            }

            found.Add(new FoundFile(path, ((FileInfo)entry).Length));
            if (found.Count > MostFiles)
            {
                throw new InputFileException(folder, 0, 0, FormattableString.Invariant($"holds more than {MostFiles} files; this is no vector set."));
            }
        }
    }
}

/// <summary>A file on the disk.</summary>
/// <param name="Path">Path from the set's folder on, parted by slashes.</param>
/// <param name="Bytes">Its size.</param>
public sealed record FoundFile(string Path, long Bytes);
