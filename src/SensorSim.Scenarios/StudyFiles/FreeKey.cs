// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>A key of a study whose values depend on something else: on another key, or they are a list or a table.</summary>
public sealed record FreeKey : KeyDefinition
{
    /// <summary>What may stand there, in words.</summary>
    public required string Allowed { get; init; }

    /// <summary>What a schema can say of the value.</summary>
    public required ValueShape Shape { get; init; }

    /// <inheritdoc/>
    public override string DefaultText => "";

    /// <inheritdoc/>
    public override string RangeText => Allowed;
}
