// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Output;

/// <summary>Moves the files of one folder over those of another, all of them or none.</summary>
internal static class FolderMerge
{
    /// <summary>Moves; both folders lie on one disk. Files that are replaced end up in <c>.replaced</c> of the source.</summary>
    public static void Move(string source, string target)
    {
        string[] names = [.. Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(source, file))
            .Order(StringComparer.Ordinal)];
        string aside = Path.Combine(source, ".replaced");
        var undo = new Stack<(string From, string To)>();
        try
        {
            foreach (string name in names)
            {
                string place = Path.Combine(target, name);
                string old = Path.Combine(aside, name);
                Directory.CreateDirectory(Path.GetDirectoryName(place)!);
                if (File.Exists(place))
                {
                    Directory.CreateDirectory(Path.GetDirectoryName(old)!);
                    File.Move(place, old);
                    undo.Push((old, place));
                }

                File.Move(Path.Combine(source, name), place);
                undo.Push((place, Path.Combine(source, name)));
            }
        }
        catch
        {
            while (undo.TryPop(out (string From, string To) step))
            {
                File.Move(step.From, step.To);
            }

            throw;
        }
    }
}
