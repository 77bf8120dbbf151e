// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Output;

/// <summary>A folder of results that appears whole or not at all.</summary>
/// <remarks>
/// Files are made in a temporary folder beside the target. <see cref="Commit"/> renames them into place: the whole folder when
/// the target does not exist, else file by file, and only the files of this run; if one cannot be put into place, those before
/// it are taken back. Disposing without a commit leaves nothing behind, unless what came is to be kept (<see cref="KeepsUnfinished"/>).
/// </remarks>
public sealed class OutputFolder : IDisposable
{
    /// <summary>What the name of a folder that is kept unfinished ends in.</summary>
    public const string UnfinishedEnding = ".unfinished";

    private const string Ending = ".partial";
    private const int RandomLength = 12;

    private readonly string _temporary;
    private readonly string? _madeParent;
    private readonly List<FileStream> _streams = [];
    private bool _isDone;

    /// <summary>Prepares the folder; the target itself is not touched.</summary>
    /// <param name="path">Path of the target folder; it may exist.</param>
    /// <exception cref="IOException">The target is a file, or no folder can be made beside it.</exception>
    public OutputFolder(string path)
        : this(path, isVisible: false)
    {
    }

    private OutputFolder(string path, bool isVisible)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        FullPath = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        if (File.Exists(FullPath))
        {
            throw new IOException($"{path}: this is a file; the results need a folder.");
        }

        string parent = Path.GetDirectoryName(FullPath) ?? FullPath;
        if (isVisible && Path.Exists(FullPath + UnfinishedEnding))
        {
            throw new IOException($"{path}{UnfinishedEnding}: an earlier run was cut off, or one is still going on; once it is over, move away or remove what it left there.");
        }

        _madeParent = FirstMissing(parent);
        Directory.CreateDirectory(parent);

        // A random name, so that two runs into one folder do not meet; it never shows in a result.
        _temporary = isVisible
            ? FullPath + UnfinishedEnding
            : Path.Combine(parent, $".{Path.GetFileName(FullPath)}.{Path.GetRandomFileName()}{Ending}");
        Directory.CreateDirectory(_temporary);
    }

    /// <summary>Prepares a folder whose files can be looked at while they grow: they lie beside the target under its name and <see cref="UnfinishedEnding"/>.</summary>
    /// <param name="path">Path of the target folder; it may exist.</param>
    /// <remarks>Should the process die, what was written stays there; the next run into the same target does not touch it and is refused.</remarks>
    /// <exception cref="IOException">The target is a file, no folder can be made beside it, or an earlier run left one.</exception>
    public static OutputFolder Visible(string path) => new(path, isVisible: true);

    /// <summary>Whether disposing without a commit leaves what there is, for whoever wants to look at it; so once it holds what cannot be made again.</summary>
    public bool KeepsUnfinished { get; set; }

    /// <summary>Full path of the target.</summary>
    public string FullPath { get; }

    /// <summary>Removes temporary folders of a target that processes left behind which were killed; nobody else may be writing to the target.</summary>
    /// <param name="path">Path of the target folder.</param>
    public static void RemoveLeftovers(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        string start = $".{Path.GetFileName(full)}.";
        if (Path.GetDirectoryName(full) is string parent && Directory.Exists(parent))
        {
            foreach (string left in Directory.GetDirectories(parent).Where(d => IsLeftover(Path.GetFileName(d), start)))
            {
                Directory.Delete(left, recursive: true);
            }
        }
    }

    /// <summary>Starts a file.</summary>
    /// <param name="name">Name in the folder; may lie in a folder inside, parted by a slash.</param>
    /// <returns>Takes the content; closed by the caller before <see cref="Commit"/>.</returns>
    public Stream CreateFile(string name)
    {
        // One that is closed need not be watched any more, and would keep its buffer: a set may have thousands of files.
        _streams.RemoveAll(s => !s.CanWrite);
        var stream = new FileStream(PathOf(name), FileMode.CreateNew, FileAccess.Write, FileShare.Read, 1 << 16);
        _streams.Add(stream);
        return stream;
    }

    /// <summary>Where a file is to be written until the commit, for a writer that wants a path.</summary>
    /// <param name="name">Name in the folder; may lie in a folder inside, parted by a slash.</param>
    public string PathOf(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ObjectDisposedException.ThrowIf(_isDone, this);
        string path = Path.GetFullPath(Path.Combine(_temporary, name));
        if (!path.StartsWith(_temporary + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            throw new ArgumentException($"{name} lies outside the folder.", nameof(name));
        }

        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }

    /// <summary>Puts every file into place.</summary>
    /// <exception cref="InvalidOperationException">A file is still being written: what its writer holds back would be lost.</exception>
    /// <exception cref="IOException">The files cannot be put into place; the target is as before.</exception>
    public void Commit()
    {
        ObjectDisposedException.ThrowIf(_isDone, this);
        if (_streams.Find(stream => stream.CanWrite) is FileStream open)
        {
            throw new InvalidOperationException($"{Path.GetFileName(open.Name)} is still open; close its writer before the commit.");
        }

        if (!Directory.Exists(FullPath))
        {
            Directory.Move(_temporary, FullPath);
        }
        else
        {
            FolderMerge.Move(_temporary, FullPath);
            Directory.Delete(_temporary, recursive: true);
        }

        _isDone = true;
    }

    /// <summary>Removes everything that was not committed.</summary>
    public void Dispose()
    {
        if (_isDone)
        {
            return;
        }

        _isDone = true;
        CloseStreams();
        if (KeepsUnfinished)
        {
            return;
        }

        Directory.Delete(_temporary, recursive: true);
        if (_madeParent is not null)
        {
            RemoveWhileEmpty(Path.GetDirectoryName(FullPath)!, _madeParent);
        }
    }

    // The target's name, then what Path.GetRandomFileName gives (eight characters, a point, three), then the ending: nothing else looks like it.
    private static bool IsLeftover(string name, string start) =>
        name.StartsWith(start, StringComparison.Ordinal)
        && name.EndsWith(Ending, StringComparison.Ordinal)
        && name.Length == start.Length + RandomLength + Ending.Length
        && name[start.Length + 8] == '.';

    private static string? FirstMissing(string folder)
    {
        string? missing = null;
        for (string? at = folder; at is not null && !Directory.Exists(at); at = Path.GetDirectoryName(at))
        {
            missing = at;
        }

        return missing;
    }

    private static void RemoveWhileEmpty(string folder, string last)
    {
        for (string at = folder; Directory.Exists(at) && !Directory.EnumerateFileSystemEntries(at).Any(); at = Path.GetDirectoryName(at)!)
        {
            Directory.Delete(at);
            if (string.Equals(at, last, StringComparison.Ordinal))
            {
                return;
            }
        }
    }

    private void CloseStreams()
    {
        foreach (FileStream stream in _streams)
        {
            try
            {
                stream.Dispose();
            }
            catch (IOException)
            {
                // A full disk again, met by what the stream still held back; the failure that led here is already on its way.
            }
        }

        _streams.Clear();
    }
}
