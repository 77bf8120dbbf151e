// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Begins a constraint on requirements that are written down elsewhere.</summary>
public static class Meets
{
    /// <summary>What the scenario asks for under <c>[requirements]</c>, each seed alone, as <c>sensorsim run</c> judges it.</summary>
    public static OwnRequirementsConstraint ItsRequirements => new(null);
}
