// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>What a detector reached of a requirement at one point, pooled over its seeds and persons.</summary>
/// <param name="Requirement">The requirement, on one channel.</param>
/// <param name="Detector">Index of the detector.</param>
/// <param name="Point">Index of the point.</param>
/// <param name="Pool">The pooled runs.</param>
public sealed record PointFigure(RequirementOnRow Requirement, int Detector, int Point, RunPool Pool)
{
    /// <summary>Whether the pooled figure meets the requirement; an undefined one does not.</summary>
    public bool IsMet => Requirement.IsMetBy(Pool.Figure);

    /// <summary>Events that were there, or readings that were compared.</summary>
    public long EventCount => Pool.Counts.Reference > 0 ? Pool.Counts.Reference : Pool.Errors.Count;
}
