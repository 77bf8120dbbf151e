// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Calibrations;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A case of a vector plan: one stream, and what is asked of a detector that runs on it.</summary>
public sealed record PlannedCase
{
    /// <summary>Name, unique in the plan and good for a folder: lower-case letters, digits, hyphens.</summary>
    public required string Name { get; init; }

    /// <summary>What the case is, in a line; empty when the plan does not say.</summary>
    public string About { get; init; } = "";

    /// <summary>The scenario, with the seed and the length of the case.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>Path of the scenario as the plan says it.</summary>
    public required string ScenarioPath { get; init; }

    /// <summary>Seed.</summary>
    public ulong Seed => Scenario.Seed;

    /// <summary>Length [s].</summary>
    public double DurationS => Scenario.DurationS;

    /// <summary>Calibration that the detector is told; null: none.</summary>
    public CalibrationFile? Calibration { get; init; }

    /// <summary>Path of the calibration as the plan says it; empty: none.</summary>
    public string CalibrationPath { get; init; } = "";

    /// <summary>What disturbs the case, in a word of the plan's; <c>none</c> when nothing does.</summary>
    public string Disturbance { get; init; } = "none";

    /// <summary>How hard it is.</summary>
    public required CaseLevel Level { get; init; }

    /// <summary>Requirements that hold for it, in the plan's order.</summary>
    public required IReadOnlyList<PlannedRequirement> Requirements { get; init; }

    /// <summary>Stretches in which nothing may be given, in order of time and apart from each other; empty when the plan names none.</summary>
    public IReadOnlyList<WithheldStretch> Withhold { get; init; } = [];

    /// <summary>Forms in which the samples are shipped; empty: only their hashes.</summary>
    public required IReadOnlyList<StimulusForm> Stimulus { get; init; }

    /// <summary>C headers that are shipped; names all different.</summary>
    public IReadOnlyList<PlannedHeader> Headers { get; init; } = [];

    /// <summary>Requirements that the library of this project is known not to meet here.</summary>
    public IReadOnlyList<PlannedDeviation> Deviations { get; init; } = [];

    /// <summary>The known deviation from a requirement, or null.</summary>
    /// <param name="requirementId">Name of the requirement.</param>
    public PlannedDeviation? DeviationFrom(string requirementId) =>
        Deviations.FirstOrDefault(d => string.Equals(d.RequirementId, requirementId, StringComparison.Ordinal));
}

/// <summary>A stretch in which nothing may be given.</summary>
/// <param name="FromS">Begin [s].</param>
/// <param name="ToS">End, not included [s].</param>
public readonly record struct WithheldStretch(double FromS, double ToS);
