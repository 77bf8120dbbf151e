// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Begins a constraint on the manners of a detector.</summary>
public static class Keeps
{
    /// <summary>
    /// The contract of a detector: its marks do not depend on how the stream is cut into blocks, and a second start on the same stream gives the same
    /// marks again. When a mark is given may depend on the cut.
    /// </summary>
    public static ContractConstraint TheContract => new(null);
}
