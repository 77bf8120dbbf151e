// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Keys;

/// <summary>A knob whose value is one of a few words.</summary>
public sealed record ChoiceKey : KeyDefinition
{
    /// <summary>The allowed words.</summary>
    public required IReadOnlyList<string> Choices { get; init; }

    /// <summary>Word when the scenario does not say.</summary>
    public required string Default { get; init; }

    /// <inheritdoc/>
    public override string DefaultText => Default;

    /// <inheritdoc/>
    public override string RangeText => string.Join(", ", Choices);
}
