// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Keys of <c>[set]</c>.</summary>
public static class PlanSetKeys
{
    internal const string Section = "set";
    internal const string Own = "Choice of this project.";

    /// <summary>Title.</summary>
    public static readonly TextKey Title = Line("set.title", "What the set is, in a line; must be given.");

    /// <summary>Purpose.</summary>
    public static readonly TextKey About = Line("set.about", "What the set is for, and what it is not for.", 2000);

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Title, About];

    internal static TextKey Line(string name, string meaning, int longest = 500) => new()
    {
        Name = name,
        Meaning = meaning,
        HasDefault = false,
        MaximumLength = longest,
        Source = Own,
    };
}
