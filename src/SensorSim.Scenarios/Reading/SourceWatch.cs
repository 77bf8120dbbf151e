// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>Sees every file that is read while scenarios, plans and what they name are read; may keep the reading inside one folder.</summary>
/// <remarks>It watches the flow of calls that created it, tasks started there included. Watches may stand inside each other; each sees all.</remarks>
public sealed class SourceWatch : IDisposable
{
    private static readonly AsyncLocal<SourceWatch?> s_current = new();

    private readonly SourceWatch? _outer;
    private readonly string? _root;
    private readonly Dictionary<string, ReadOnlyMemory<byte>> _files = new(StringComparer.Ordinal);

    private SourceWatch(string? root)
    {
        _root = root is null ? null : Path.TrimEndingDirectorySeparator(Path.GetFullPath(root)) + Path.DirectorySeparatorChar;
        _outer = s_current.Value;
        s_current.Value = this;
    }

    /// <summary>Full paths of the files read, with what was read, in ordinal order of paths.</summary>
    public IReadOnlyList<(string FullPath, ReadOnlyMemory<byte> Bytes)> Files
    {
        get
        {
            lock (_files)
            {
                return [.. _files.OrderBy(f => f.Key, StringComparer.Ordinal).Select(f => (f.Key, f.Value))];
            }
        }
    }

    /// <summary>Watches until disposed.</summary>
    public static SourceWatch Begin() => new(null);

    /// <summary>Watches until disposed, and refuses every file that does not lie in a folder.</summary>
    /// <param name="folder">Path of the folder.</param>
    public static SourceWatch Within(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        return new(folder);
    }

    /// <summary>Whether a file may be read.</summary>
    /// <param name="path">Its path.</param>
    internal static bool MayRead(string path)
    {
        for (SourceWatch? watch = s_current.Value; watch is not null; watch = watch._outer)
        {
            if (watch._root is not null && !Path.GetFullPath(path).StartsWith(watch._root, StringComparison.Ordinal))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Tells what was read.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="bytes">Its bytes.</param>
    internal static void Tell(string path, byte[] bytes)
    {
        for (SourceWatch? watch = s_current.Value; watch is not null; watch = watch._outer)
        {
            lock (watch._files)
            {
                watch._files[Path.GetFullPath(path)] = bytes;
            }
        }
    }

    /// <summary>Ends the watch.</summary>
    public void Dispose()
    {
        if (ReferenceEquals(s_current.Value, this))
        {
            s_current.Value = _outer;
        }
    }
}
