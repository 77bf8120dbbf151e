// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Keys;

/// <summary>A key that holds free text.</summary>
public sealed record TextKey : KeyDefinition
{
    /// <summary>Longest allowed text [characters].</summary>
    public int MaximumLength { get; init; } = 200;

    /// <inheritdoc/>
    public override string DefaultText => "";

    /// <inheritdoc/>
    public override string RangeText => $"up to {MaximumLength} characters";
}
