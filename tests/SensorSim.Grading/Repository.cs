// SPDX-License-Identifier: MIT
namespace SensorSim.Grading;

/// <summary>Finds files of the repository from wherever the program was built.</summary>
internal static class Repository
{
    private const string Marker = "SensorSim.sln";

    /// <summary>Path of the repository.</summary>
    public static string Root { get; } = Find();

    /// <summary>Path of a file of the repository.</summary>
    /// <param name="parts">Folders and name, from the top.</param>
    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, Marker)))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"{Marker} lies in no folder above {AppContext.BaseDirectory}; build inside the repository.");
    }
}
