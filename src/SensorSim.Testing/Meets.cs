// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Begins a constraint on requirements that are written down elsewhere.</summary>
public static class Meets
{
    /// <summary>What the scenario asks for under <c>[requirements]</c>, each seed alone, as <c>sensorsim run</c> judges it.</summary>
    public static OwnRequirementsConstraint ItsRequirements => new(null);

    /// <summary>The windows of acceptance of a case of a set of known answers.</summary>
    /// <param name="vectorCase">The case, with the requirements that count.</param>
    public static AcceptanceConstraint AcceptanceOf(VectorCase vectorCase) => new(vectorCase ?? throw new ArgumentNullException(nameof(vectorCase)));
}
