// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Scenarios.StudyFiles;
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

    /// <summary>Files that go along.</summary>
    public static readonly FreeKey Attached = new()
    {
        Name = "set.attached",
        Meaning = "Files that are copied into the set as they are, such as known answers of codecs; they lie in the plan's folder or below it and keep their places.",
        Allowed = "a list of paths from the plan's folder on, for example [\"codecs/crc.csv\"]",
        Shape = new(ValueForm.Texts),
        Source = Own,
    };

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Title, About, Attached];

    internal static TextKey Line(string name, string meaning, int longest = 500) => new()
    {
        Name = name,
        Meaning = meaning,
        HasDefault = false,
        MaximumLength = longest,
        Source = Own,
    };
}
