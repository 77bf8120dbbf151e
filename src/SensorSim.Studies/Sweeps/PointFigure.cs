// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Sweeps;

/// <summary>What a detector reached of a requirement at one point, pooled over its seeds and persons.</summary>
/// <param name="Requirement">The requirement, on one channel.</param>
/// <param name="Detector">Index of the detector.</param>
/// <param name="Point">Index of the point.</param>
/// <param name="Pool">The pooled runs.</param>
public sealed record PointFigure(RequirementOnRow Requirement, int Detector, int Point, RunPool Pool)
{
    /// <summary>Whether the pooled figure meets the requirement; an undefined one does not, nor one with a run in which the detector did not answer.</summary>
    public bool IsMet => Pool.UnansweredCount == 0 && Requirement.IsMetBy(Pool.Figure);

    /// <summary>The figure for people: with the digits that mean something, and with more where it would read as if it lay on the other side of the limit.</summary>
    public string ToldFigure => ToldDigits.Text(Pool.Figure, FigureDigits.Of(Pool, Requirement.Definition.Figure), Requirement.IsMetBy);

    /// <summary>What the figure is taken from: true events, detections, timed events, or compared readings.</summary>
    public long EventCount => Requirement.Definition.Figure switch
    {
        RequiredFigure.Sensitivity => Pool.Counts.Reference,
        RequiredFigure.PositivePredictivity => Pool.Counts.Matched + Pool.Counts.Extra,
        _ => Pool.Errors.Count,
    };
}
