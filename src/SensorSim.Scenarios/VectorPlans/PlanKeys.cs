// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>What a vector plan may hold: the one list behind reader, <c>explain</c> and docs.</summary>
public static class PlanKeys
{
    /// <summary>Every key, by section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [.. PlanSetKeys.All, .. PlanRequirementKeys.All, .. PlanCaseKeys.All, .. PlanHeaderKeys.All, .. PlanDeviationKeys.All];

    /// <summary>Every section, in the order in which a plan has them.</summary>
    public static IReadOnlyList<string> Sections { get; } =
        [PlanSetKeys.Section, PlanRequirementKeys.Section, PlanCaseKeys.Section, PlanHeaderKeys.Section, PlanDeviationKeys.Section];

    /// <summary>The keys of a section.</summary>
    /// <param name="section">Its name.</param>
    public static IReadOnlyList<KeyDefinition> Of(string section) => [.. All.Where(k => k.Section == section)];

    /// <summary>A section as a file has it, with its brackets.</summary>
    /// <param name="section">Its name.</param>
    public static string Shown(string section) => section == PlanSetKeys.Section ? $"[{section}]" : $"[[{section}]]";
}
