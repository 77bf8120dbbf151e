// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Scenarios.Requirements;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios;

/// <summary>Every key that a scenario may hold: the one list behind reader, <c>explain</c> and docs.</summary>
public static class AllKeys
{
    private static readonly Dictionary<string, KeyDefinition> s_byName = List().ToDictionary(k => k.Name, StringComparer.Ordinal);

    /// <summary>Every key, by section.</summary>
    public static IReadOnlyList<KeyDefinition> List() =>
        [.. ScenarioKeys.All, .. BodyKeys.All, .. SensingKeys.All, .. RequirementKeys.All.Select(r => r.Key)];

    /// <summary>A key by its full name, or null.</summary>
    /// <param name="name">Name such as <c>heart.rate_bpm</c>.</param>
    public static KeyDefinition? Find(string name) => s_byName.GetValueOrDefault(name);

    /// <summary>The names of the sections, in order.</summary>
    public static IReadOnlyList<string> Sections() => [.. List().Select(k => k.Section).Distinct(StringComparer.Ordinal)];
}
