// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The level of one varied key at which one detector no longer meets one requirement.</summary>
public sealed record FailurePoint
{
    /// <summary>The requirement, on one channel.</summary>
    public required RequirementOnRow Requirement { get; init; }

    /// <summary>Index of the detector.</summary>
    public required int Detector { get; init; }

    /// <summary>The key whose level is looked for; its values are numbers.</summary>
    public required Factor Factor { get; init; }

    /// <summary>The other varied keys with the values at which they were held; empty when only one key varies.</summary>
    public required IReadOnlyList<(Factor Factor, object Value)> Held { get; init; }

    /// <summary>What became of the search.</summary>
    public required FailurePointState State { get; init; }

    /// <summary>The level [unit of the key]; null unless <see cref="State"/> is <see cref="FailurePointState.Found"/>.</summary>
    public double? Level { get; init; }

    /// <summary>Its 95 % interval [unit of the key]; an end is infinite where resamples did not cross the requirement on that side.</summary>
    public Interval? Interval { get; init; }

    /// <summary>What was reached at each level, in ascending order of levels.</summary>
    public required IReadOnlyList<LevelFigure> Levels { get; init; }

    /// <summary>
    /// Points (level, figure) of the curve for a plot, in ascending order of levels; empty without a curve. It crosses the requirement at <see cref="Level"/>: fitted,
    /// interpolated, or, where figures drop between two levels, the figures themselves with a step in the middle.
    /// </summary>
    public IReadOnlyList<(double Level, double Figure)> Curve { get; init; } = [];

    /// <summary>One sentence: the definition, with requirement, pooling, curve, interval, runs and events per run.</summary>
    public required string Definition { get; init; }

    /// <summary>Sentences of warning: a poor fit, an interval that reaches the end of the levels; empty when there are none.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}
