// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Where files of a test are looked for.</summary>
/// <remarks>
/// A relative path is looked for from the folder of the test program on, then from each folder above it, at last from the current folder: so
/// <c>scenarios/rest.toml</c> is found beside the tests when it is copied there, and in the folder of the project or of the repository when it is not.
/// </remarks>
public static class TestFile
{
    /// <summary>Finds a file or a folder.</summary>
    /// <param name="path">Its path.</param>
    /// <returns>The full path.</returns>
    /// <exception cref="FileNotFoundException">There is none; the message says where it was looked for.</exception>
    public static string Find(string path) => TryFind(path) ?? throw new FileNotFoundException($"{path}: there is no such file or folder{Places(path)}");

    /// <summary>Finds files by a pattern.</summary>
    /// <param name="pattern">Path of a file, or of files in one folder with <c>*</c> and <c>?</c> in the last part.</param>
    /// <returns>Full paths in ordinal order, at least one.</returns>
    /// <exception cref="FileNotFoundException">There is none.</exception>
    public static IReadOnlyList<string> FindAll(string pattern)
    {
        ArgumentException.ThrowIfNullOrEmpty(pattern);
        string name = Path.GetFileName(pattern);
        if (name.IndexOfAny(['*', '?']) < 0)
        {
            return [Find(pattern)];
        }

        string folder = Find(Path.GetDirectoryName(pattern) is { Length: > 0 } given ? given : ".");
        string[] files = [.. Directory.EnumerateFiles(folder, name).Order(StringComparer.Ordinal)];
        return files.Length > 0 ? files : throw new FileNotFoundException($"{pattern}: no file in {folder} has such a name");
    }

    // An absolute path was looked for nowhere else; the current folder is often the one of the tests, or above it.
    private static string Places(string path)
    {
        string own = Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory);
        string here = Path.TrimEndingDirectorySeparator(Environment.CurrentDirectory);
        bool isNamed = (own + Path.DirectorySeparatorChar).StartsWith(here + Path.DirectorySeparatorChar, StringComparison.Ordinal);
        return Path.IsPathRooted(path) ? ""
            : $" below {own} and the folders above it{(isNamed ? "" : $", nor below {here}")}; give a path from one of them on, or an absolute one";
    }

    private static string? TryFind(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            string full = Path.GetFullPath(Path.Combine(folder.FullName, path));
            if (Path.Exists(full))
            {
                return full;
            }
        }

        string here = Path.GetFullPath(path);
        return Path.Exists(here) ? here : null;
    }
}
