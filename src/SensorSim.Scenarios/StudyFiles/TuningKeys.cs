// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Keys of <c>[tuning]</c>.</summary>
public static class TuningKeys
{
    internal const string Section = "tuning";

    /// <summary>First seed.</summary>
    public static readonly NumberKey FirstSeed = StudySectionKeys.Seed(
        "tuning.first_seed", "First of the seeds on which the detector's constants are chosen; none of them may be a seed of [study].") with
    {
        Default = 5001,
    };

    /// <summary>Number of seeds.</summary>
    public static readonly NumberKey SeedCount = StudySectionKeys.Count("tuning.seed_count", "Number of seeds on which the constants are chosen.", 1e6, 50);

    /// <summary>Seeds one by one.</summary>
    public static readonly FreeKey Seeds = StudySectionKeys.List("tuning.seeds", "Seeds one by one, in place of first_seed and seed_count.");

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [FirstSeed, SeedCount, Seeds];
}
