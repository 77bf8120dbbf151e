// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;

namespace SensorSim.Cli.Commands;

/// <summary>Where the verbs of vector sets may write.</summary>
internal static class VectorsPlaces
{
    /// <summary>Results must not lie in the set: a file more, and it is no longer what its manifest says.</summary>
    /// <param name="set">Folder of the set.</param>
    /// <param name="outPath">Folder for results; null: none.</param>
    /// <exception cref="UsageException">The one lies in the other.</exception>
    public static void MustLieOutside(string set, string? outPath)
    {
        if (string.IsNullOrWhiteSpace(outPath) || string.IsNullOrWhiteSpace(set))
        {
            return;
        }

        string own = Real(set) + Path.DirectorySeparatorChar;
        if ((Real(outPath) + Path.DirectorySeparatorChar).StartsWith(own, StringComparison.Ordinal))
        {
            throw new UsageException($"--out {outPath} lies in the set, whose files would then not be those of its manifest; name a folder outside of it");
        }
    }

    // Links on the way are followed as far as the folders exist.
    private static string Real(string path)
    {
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        string? above = Path.GetDirectoryName(full);
        if (above is null)
        {
            return "";
        }

        FileSystemInfo? target = null;
        try
        {
            target = new DirectoryInfo(full).ResolveLinkTarget(returnFinalTarget: true);
        }
        catch (IOException)
        {
            // What cannot be followed is told when it is opened.
        }

        return target is null ? Real(above) + Path.DirectorySeparatorChar + Path.GetFileName(full) : Path.TrimEndingDirectorySeparator(target.FullName);
    }
}
