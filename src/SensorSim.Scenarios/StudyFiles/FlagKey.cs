// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>A key of a study that is true or false.</summary>
public sealed record FlagKey : KeyDefinition
{
    /// <summary>Value when the study does not say.</summary>
    public bool Default { get; init; }

    /// <inheritdoc/>
    public override string DefaultText => Default ? "true" : "false";

    /// <inheritdoc/>
    public override string RangeText => "true or false";
}
