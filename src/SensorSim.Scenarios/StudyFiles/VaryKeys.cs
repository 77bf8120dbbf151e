// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Keys of <c>[[vary]]</c>.</summary>
public static class VaryKeys
{
    internal const string Section = "vary";
    internal const string Even = "even";
    internal const string Ratio = "ratio";

    /// <summary>The key that is varied.</summary>
    public static readonly FreeKey Key = Free(
        "key", "The key that is varied: of the scenario, or a constant of the detector.", "a key of a scenario with a number or a word, or detector. and the name of a constant", ValueShape.Text);

    /// <summary>One end of a range.</summary>
    public static readonly FreeKey From = Free("from", "First value of a range, in the unit of the key.", "a number that the key may have", ValueShape.Number);

    /// <summary>The other end.</summary>
    public static readonly FreeKey To = Free("to", "Last value of the range; may be below the first one.", "a number that the key may have", ValueShape.Number);

    /// <summary>Number of values.</summary>
    public static readonly NumberKey Count = StudySectionKeys.Count(
        "vary.count", "Number of values from one end of the range to the other, both included; not in a Latin hypercube, which takes point_count.", 10_000, 2) with
    {
        Minimum = 2,
        HasDefault = false,
    };

    /// <summary>Distance of the values.</summary>
    public static readonly ChoiceKey Spacing = new()
    {
        Name = "vary.spacing",
        Meaning = "Whether neighbouring values have the same difference (even) or the same ratio; with ratio, plots and fits take the logarithm.",
        Source = StudySectionKeys.Own,
        Choices = [Even, Ratio],
        Default = Even,
    };

    /// <summary>Values one by one.</summary>
    public static readonly FreeKey Values = Free("values", "Values one by one, in place of from, to and count.", "a list of numbers or words that the key may have, all different", new(ValueForm.NumbersOrTexts) { LeastItems = 1, IsUnlike = true });

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Key, From, To, Count, Spacing, Values];

    private static FreeKey Free(string key, string meaning, string allowed, ValueShape shape) => new()
    {
        Name = $"{Section}.{key}",
        Meaning = meaning,
        HasDefault = false,
        Source = StudySectionKeys.Own,
        Allowed = allowed,
        Shape = shape,
    };
}
