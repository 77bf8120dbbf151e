// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A plan of a vector set: its requirements and the cases that they are held against.</summary>
public sealed record VectorPlan
{
    /// <summary>The file, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>Its full path; scenarios and calibrations are looked for from its folder on.</summary>
    public required string FullPath { get; init; }

    /// <summary>Its text.</summary>
    public required string Text { get; init; }

    /// <summary>Its bytes.</summary>
    public required ReadOnlyMemory<byte> Bytes { get; init; }

    /// <summary>SHA-256 of its bytes, 64 lower-case hexadecimal digits.</summary>
    public required string Hash { get; init; }

    /// <summary>Title.</summary>
    public required string Title { get; init; }

    /// <summary>What the set is for; empty when the plan does not say.</summary>
    public string About { get; init; } = "";

    /// <summary>Files that are copied into the set as they are: paths from the plan's folder on, sound and all different.</summary>
    public IReadOnlyList<string> Attached { get; init; } = [];

    /// <summary>Requirements, names all different.</summary>
    public required IReadOnlyList<PlannedRequirement> Requirements { get; init; }

    /// <summary>Cases, at least one, names all different.</summary>
    public required IReadOnlyList<PlannedCase> Cases { get; init; }
}
