// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>What the makers of rows share.</summary>
internal static class RequirementPart
{
    private const double NsPerS = 1e9;

    /// <summary>The part of the case that a requirement looks at, nominal device time.</summary>
    public static Stretch Of(PlannedRequirement requirement) =>
        new(requirement.FromS is double from ? Ns(from) : long.MinValue / 4, requirement.UntilS is double until ? Ns(until) : long.MaxValue / 4);

    /// <summary>Seconds as whole nanoseconds.</summary>
    public static long Ns(double seconds) => (long)Math.Round(seconds * NsPerS);

    /// <summary>Milliseconds as whole nanoseconds.</summary>
    public static long NsOfMs(double milliseconds) => (long)Math.Round(milliseconds * 1e6);

    /// <summary>A row over a stretch, for what its rule needs no more.</summary>
    public static AcceptanceRow Row(PlannedRequirement requirement, AcceptanceRule rule, Stretch stretch) =>
        new(requirement.Id, requirement.Channel, requirement.Kind, rule, stretch.BeginNs, stretch.EndNs - 1);
}
