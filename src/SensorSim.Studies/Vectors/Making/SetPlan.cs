// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>A plan with every file that it is made from: all that a set holds of its origin.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Place">Where it stands among the files it names: a path from their common folder on.</param>
/// <param name="Sources">Those files, in ordinal order of paths.</param>
/// <param name="Attached">Files that are copied along.</param>
public sealed record SetPlan(VectorPlan Plan, string Place, IReadOnlyList<SetSource> Sources, IReadOnlyList<SetSource> Attached)
{
    // Known answers of codecs: lists of a few lines.
    private const int LargestAttached = 1 << 20;

    /// <summary>Reads a plan, or the plan in the folder of a set.</summary>
    /// <param name="path">Path of the plan or of the folder.</param>
    /// <exception cref="ScenarioException">The plan, or a file that it names, is missing or holds mistakes.</exception>
    /// <exception cref="InputFileException">The set is damaged, or a file's place or name cannot be kept in a set.</exception>
    public static SetPlan Read(string path) => Directory.Exists(path) ? FromSet(path, VectorSet.Open(path).Manifest.PlanPlace) : ReadFile(path);

    /// <summary>Reads a plan from where the user keeps it.</summary>
    /// <param name="path">Path of the plan.</param>
    /// <exception cref="ScenarioException">The plan, or a file that it names, is missing or holds mistakes.</exception>
    /// <exception cref="InputFileException">A file's place or name cannot be kept in a set.</exception>
    public static SetPlan ReadFile(string path)
    {
        using var watch = SourceWatch.Begin();
        VectorPlan plan = VectorPlanReader.ReadFile(path);
        foreach (string named in plan.Cases.SelectMany(PathsOf).Where(Path.IsPathRooted))
        {
            throw new InputFileException(path, 0, 0, $"the path {named} begins at the root; in a plan for a set, and in what it names, give paths from the file's folder on, so that the set can be made again elsewhere.");
        }

        string[] files = [.. watch.Files.Select(f => f.FullPath).Append(plan.FullPath)];
        string root = CommonFolder(files);
        string place = Relative(root, plan.FullPath);
        var sources = new List<SetSource>();
        foreach ((string full, ReadOnlyMemory<byte> bytes) in watch.Files.Where(f => f.FullPath != plan.FullPath))
        {
            string relative = Relative(root, full);
            if (SetNames.Fault(relative) is string fault)
            {
                throw new InputFileException(full, 0, 0, $"{relative} is the place of this file in a set; it {fault}.");
            }

            sources.Add(new SetSource($"{SetNames.Sources}/{relative}", bytes));
        }

        return SetNames.Fault(place) is string wrong
            ? throw new InputFileException(path, 0, 0, $"{place} is the place of the plan in a set; it {wrong}.")
            : new SetPlan(plan, place, [.. sources.OrderBy(s => s.Path, StringComparer.Ordinal)], ReadAttached(plan, Path.GetDirectoryName(plan.FullPath)!));
    }

    /// <summary>Reads the plan in a set, and what it names from the set alone.</summary>
    /// <param name="folder">Folder of the set; it holds no link.</param>
    /// <param name="place">Where the plan stands among its sources, sound as a path.</param>
    /// <exception cref="ScenarioException">The plan, or a file that it names, is missing, holds mistakes or lies outside of the set.</exception>
    /// <exception cref="InputFileException">The plan cannot be read.</exception>
    public static SetPlan FromSet(string folder, string place)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentNullException.ThrowIfNull(place);
        string sources = Path.GetFullPath(Path.Combine(folder, SetNames.Sources));
        byte[] bytes = SetFolder.ReadSmall(Path.Combine(folder, SetNames.Plan), LargestAttached);
        using var watch = SourceWatch.Within(sources);
        VectorPlan plan = VectorPlanReader.ReadText(TextOf(bytes, folder), Path.Combine(sources, place)) with { Bytes = bytes };
        SetSource[] read = [.. watch.Files.Select(f => new SetSource($"{SetNames.Sources}/{Relative(sources, f.FullPath)}", f.Bytes))];
        return new SetPlan(plan, place, [.. read.OrderBy(s => s.Path, StringComparer.Ordinal)], ReadAttached(plan, folder));
    }

    private static string TextOf(byte[] bytes, string folder)
    {
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException e)
        {
            throw new InputFileException(Path.Combine(folder, SetNames.Plan), 0, 0, "is not UTF-8 text; a plan is TOML.", e);
        }
    }

    private static IEnumerable<string> PathsOf(PlannedCase planned) =>
        [planned.ScenarioPath, planned.CalibrationPath, .. planned.Scenario.ReferencedFiles.Select(f => f.Path)];

    private static SetSource[] ReadAttached(VectorPlan plan, string folder) =>
        [.. plan.Attached.Select(path => new SetSource(path, SetFolder.ReadSmall(Path.Combine(folder, path), LargestAttached)))];

    private static string CommonFolder(string[] files)
    {
        string common = Path.GetDirectoryName(files[0])!;
        foreach (string file in files)
        {
            while (!file.StartsWith(Path.EndsInDirectorySeparator(common) ? common : common + Path.DirectorySeparatorChar, StringComparison.Ordinal))
            {
                common = Path.GetDirectoryName(common) ?? throw new InputFileException(file, 0, 0, "lies on another disk than the plan; keep all files of a set on one.");
            }
        }

        return common;
    }

    private static string Relative(string root, string full) => Path.GetRelativePath(root, full).Replace(Path.DirectorySeparatorChar, '/');
}
