// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>A vector set on the disk, every file of it as its manifest says.</summary>
public sealed class VectorSet
{
    private readonly Lazy<IReadOnlyList<SetCase>> _cases;
    private readonly Lazy<VectorPlan> _plan;

    private VectorSet(string folder, SetManifest manifest)
    {
        Folder = folder;
        Manifest = manifest;
        _plan = new Lazy<VectorPlan>(() => SetPlan.FromSet(folder, manifest.PlanPlace).Plan);
        _cases = new Lazy<IReadOnlyList<SetCase>>(MakeCases);
    }

    /// <summary>Path of its folder.</summary>
    public string Folder { get; }

    /// <summary>What it says of itself.</summary>
    public SetManifest Manifest { get; }

    /// <summary>Its plan, read from the set alone.</summary>
    /// <exception cref="ScenarioException">This program cannot read the plan.</exception>
    public VectorPlan Plan => _plan.Value;

    /// <summary>Its cases, in the plan's order.</summary>
    /// <exception cref="ScenarioException">This program cannot read the plan.</exception>
    /// <exception cref="InputFileException">Plan and manifest name other cases.</exception>
    public IReadOnlyList<SetCase> Cases => _cases.Value;

    /// <summary>Whether this program's generator has the version that made the set: only then can its samples be made again.</summary>
    public bool CanBeMadeHere => Manifest.GeneratorVersion == Scenario.GeneratorVersion;

    /// <summary>Opens a set and checks the sum of every file.</summary>
    /// <param name="folder">Its folder.</param>
    /// <exception cref="InputFileException">It is no set, or a file of it is damaged, missing or too many.</exception>
    public static VectorSet Open(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        SetOnDisk disk = SetOnDisk.Read(folder);
        if (disk.Manifest is not SetManifest manifest)
        {
            throw new InputFileException(disk.FullPath(SetNames.Manifest), 0, 0, "is missing or damaged; sensorsim vectors verify says more.");
        }

        if (!disk.IsPaired)
        {
            throw new InputFileException(disk.FullPath(SetNames.Sidecar), 0, 0, $"does not hold the sum of {SetNames.Manifest}; one of the two is damaged, sensorsim vectors verify says which.");
        }

        if (manifest.Files.FirstOrDefault(f => !disk.IsWhole(f)) is ManifestFile damaged)
        {
            throw new InputFileException(disk.FullPath(damaged.Path), 0, 0, disk.Files.ContainsKey(damaged.Path)
                ? "its size or its SHA-256 is not the manifest's; sensorsim vectors verify says more."
                : "is missing; the manifest lists it.");
        }

        HashSet<string> listed = [.. manifest.Files.Select(f => f.Path), SetNames.Manifest, SetNames.Sidecar];
        return disk.Files.Keys.Order(StringComparer.Ordinal).FirstOrDefault(f => !listed.Contains(f)) is string extra
            ? throw new InputFileException(disk.FullPath(extra), 0, 0, "is not in the manifest; nothing else may lie in the folder of a set.")
            : new VectorSet(folder, manifest);
    }

    private IReadOnlyList<SetCase> MakeCases() => Plan.Cases.Select(c => c.Name).SequenceEqual(Manifest.Cases.Select(c => c.Name), StringComparer.Ordinal)
        ? [.. Plan.Cases.Zip(Manifest.Cases, (planned, facts) => new SetCase(Path.Combine(Folder, facts.Name), facts, planned))]
        : throw new InputFileException(Path.Combine(Folder, SetNames.Manifest), 0, 0, $"lists other cases than {SetNames.Plan}; the two do not belong together.");
}
