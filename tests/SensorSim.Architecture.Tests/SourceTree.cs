// SPDX-License-Identifier: MIT
namespace SensorSim.Architecture.Tests;

/// <summary>The files of the repository as they lie on disk, without what builds and editors leave behind.</summary>
internal static class SourceTree
{
    private static readonly HashSet<string> SkippedFolders = new(StringComparer.Ordinal)
    {
        ".git", ".idea", ".vs", ".vscode", "artifacts", "bin", "obj", "out", "BenchmarkDotNet.Artifacts", "TestResults", "__pycache__",
    };

    /// <summary>Folder that holds SensorSim.sln.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Full paths of all files below a folder of the repository, in ordinal order.</summary>
    public static IEnumerable<string> FilesBelow(string folder)
    {
        string full = Path.Combine(Root, folder);
        return Directory.Exists(full) ? Walk(full).Order(StringComparer.Ordinal) : [];
    }

    /// <summary>Full paths of the project files below a folder.</summary>
    public static IEnumerable<string> ProjectFiles(string folder)
        => FilesBelow(folder).Where(file => file.EndsWith(".csproj", StringComparison.Ordinal));

    /// <summary>Path as a reader of the repository writes it.</summary>
    public static string Relative(string file) => Path.GetRelativePath(Root, file).Replace('\\', '/');

    private static IEnumerable<string> Walk(string folder)
    {
        foreach (string file in Directory.EnumerateFiles(folder))
        {
            // In a linked working tree .git is a file.
            if (Path.GetFileName(file) != ".git")
            {
                yield return file;
            }
        }

        foreach (string child in Directory.EnumerateDirectories(folder))
        {
            if (SkippedFolders.Contains(Path.GetFileName(child)))
            {
                continue;
            }

            foreach (string file in Walk(child))
            {
                yield return file;
            }
        }
    }

    private static string FindRoot()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "SensorSim.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"No SensorSim.sln above {AppContext.BaseDirectory}: run the tests inside the repository.");
    }
}
