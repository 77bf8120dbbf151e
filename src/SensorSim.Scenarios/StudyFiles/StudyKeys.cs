// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>What a study file may hold: the one list behind reader, <c>explain</c> and docs.</summary>
public static class StudyKeys
{
    /// <summary>Every key, by section; those of <c>[requirements]</c> are the scenario's, see <see cref="RequirementKeys"/>.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [.. StudySectionKeys.All, .. VaryKeys.All, .. DetectorKeys.All, .. FailurePointKeys.All, .. TuningKeys.All];

    /// <summary>Sections that may stand many times.</summary>
    public static IReadOnlyList<string> Repeated { get; } = [VaryKeys.Section, DetectorKeys.Section];

    /// <summary>Every section, in the order in which a study has them.</summary>
    public static IReadOnlyList<string> Sections { get; } =
        [StudySectionKeys.Section, VaryKeys.Section, DetectorKeys.Section, RequirementsSection, FailurePointKeys.Section, TuningKeys.Section];

    internal const string RequirementsSection = "requirements";

    /// <summary>The keys of a section.</summary>
    /// <param name="section">Its name.</param>
    public static IReadOnlyList<KeyDefinition> Of(string section) => section == RequirementsSection
        ? [.. RequirementKeys.All.Select(r => r.Key)]
        : [.. All.Where(k => k.Section == section)];

    /// <summary>A section as a file has it, with its brackets.</summary>
    /// <param name="section">Its name.</param>
    public static string Shown(string section) => Repeated.Contains(section, StringComparer.Ordinal) ? $"[[{section}]]" : $"[{section}]";
}
