// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Testing;

/// <summary>A case of a set of known answers, with the requirements that a test holds a detector to.</summary>
public sealed class VectorCase
{
    internal VectorCase(string folder, SetCase setCase, IReadOnlyList<PlannedRequirement> requirements)
    {
        Folder = folder;
        SetCase = setCase;
        Requirements = requirements;
    }

    /// <summary>Name of the case.</summary>
    public string Name => SetCase.Name;

    /// <summary>What the plan says of it: scenario, disturbance, level.</summary>
    public PlannedCase Planned => SetCase.Planned;

    /// <summary>The requirements, in the order of the plan.</summary>
    public IReadOnlyList<PlannedRequirement> Requirements { get; }

    /// <summary>Folder of the set.</summary>
    internal string Folder { get; }

    /// <summary>The case on the disk.</summary>
    internal SetCase SetCase { get; }

    /// <summary>The same, once for each requirement.</summary>
    public IEnumerable<VectorCase> EachRequirement() => Requirements.Select(r => new VectorCase(Folder, SetCase, [r]));

    /// <summary>Name and requirements, for names of tests.</summary>
    public override string ToString() => $"{Name}: {string.Join(", ", Requirements.Select(r => r.Id))}";
}
