// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Schemas;

/// <summary>What kind of TOML value may stand somewhere, where a key's own range cannot say it.</summary>
public enum ValueForm
{
    /// <summary>A number.</summary>
    Number,

    /// <summary>Text.</summary>
    Text,

    /// <summary>A number or text.</summary>
    NumberOrText,

    /// <summary>Text, or a list of texts.</summary>
    TextOrTexts,

    /// <summary>A list of whole numbers.</summary>
    WholeNumbers,

    /// <summary>A list of texts.</summary>
    Texts,

    /// <summary>A list of numbers or texts.</summary>
    NumbersOrTexts,

    /// <summary>A list of pairs of numbers.</summary>
    Pairs,

    /// <summary>A table whose values are numbers.</summary>
    TableOfNumbers,
}

/// <summary>The shape of a value: what a schema can say of it without the rest of the file.</summary>
/// <param name="Form">Kind of value.</param>
public sealed record ValueShape(ValueForm Form)
{
    /// <summary>The allowed texts; empty: any.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>Smallest number; null: none.</summary>
    public double? Minimum { get; init; }

    /// <summary>Largest number; null: none.</summary>
    public double? Maximum { get; init; }

    /// <summary>Whether the smallest number itself is not allowed.</summary>
    public bool IsAboveMinimum { get; init; }

    /// <summary>Fewest items of a list.</summary>
    public int LeastItems { get; init; }

    /// <summary>Whether no item of a list may stand twice.</summary>
    public bool IsUnlike { get; init; }

    /// <summary>Any number.</summary>
    public static ValueShape Number { get; } = new(ValueForm.Number);

    /// <summary>A number above 0.</summary>
    public static ValueShape Positive { get; } = new(ValueForm.Number) { Minimum = 0, IsAboveMinimum = true };

    /// <summary>Any text.</summary>
    public static ValueShape Text { get; } = new(ValueForm.Text);

    /// <summary>One of a few texts.</summary>
    /// <param name="choices">The texts.</param>
    public static ValueShape OneOf(IReadOnlyList<string> choices) => new(ValueForm.Text) { Choices = choices };
}
