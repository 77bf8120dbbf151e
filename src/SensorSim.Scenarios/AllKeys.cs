// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios;

/// <summary>Every key that a scenario may hold: the one list behind reader, <c>explain</c> and docs.</summary>
public static class AllKeys
{
    private static readonly Dictionary<string, KeyDefinition> s_byName = List().ToDictionary(k => k.Name, StringComparer.Ordinal);

    /// <summary>Every key, by section.</summary>
    public static IReadOnlyList<KeyDefinition> List() =>
        [.. ScenarioKeys.All, .. SensorKeys.All, SubjectDrawKeys.Seed, .. BodyKeys.All, .. SensingKeys.All, .. RequirementKeys.All.Select(r => r.Key)];

    /// <summary>A key by its full name, or null.</summary>
    /// <param name="name">Name such as <c>heart.rate_bpm</c>.</param>
    public static KeyDefinition? Find(string name) => s_byName.GetValueOrDefault(name);

    /// <summary>The key that a mistyped name most likely meant: the same key of another section, else the nearest of its own section.</summary>
    /// <param name="name">A name that is no key, with or without a section.</param>
    public static KeyDefinition Nearest(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        int dot = name.IndexOf('.', StringComparison.Ordinal);
        string section = dot < 0 ? "" : name[..dot];
        string key = name[(dot + 1)..];
        IReadOnlyList<KeyDefinition> all = List();
        if (Find(name) is KeyDefinition exact)
        {
            return exact;
        }

        if (all.FirstOrDefault(k => k.Key == key) is KeyDefinition elsewhere)
        {
            return elsewhere;
        }

        List<KeyDefinition> own = [.. all.Where(k => k.Section == section)];
        List<KeyDefinition> choice = own.Count > 0 ? own : [.. all];
        string nearest = dot < 0 ? NearestName.Find(key, choice.Select(k => k.Key)) : NearestName.Find(name, choice.Select(k => k.Name));
        return choice.First(k => (dot < 0 ? k.Key : k.Name) == nearest);
    }

    /// <summary>The names of the sections, in order.</summary>
    public static IReadOnlyList<string> Sections() => [.. List().Select(k => k.Section).Distinct(StringComparer.Ordinal)];
}
