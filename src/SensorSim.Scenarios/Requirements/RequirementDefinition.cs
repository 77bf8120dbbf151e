// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Requirements;

/// <summary>A requirement that a scenario or study may set: one figure of one kind, with a limit.</summary>
/// <param name="Key">The key that holds the limit.</param>
/// <param name="Kind">Kind of the row of scores or readings.</param>
/// <param name="Figure">Which figure of the row.</param>
public sealed record RequirementDefinition(NumberKey Key, MarkKind Kind, RequiredFigure Figure);

/// <summary>A figure that can be required.</summary>
public enum RequiredFigure
{
    /// <summary>Sensitivity, at least [0 to 1].</summary>
    Sensitivity,

    /// <summary>Positive predictivity, at least [0 to 1].</summary>
    PositivePredictivity,

    /// <summary>Magnitude of the timing bias, at most [ms].</summary>
    TimingBias,

    /// <summary>Standard deviation of the timing error, at most [ms].</summary>
    TimingSd,

    /// <summary>95th percentile of the magnitude of the timing error, at most [ms].</summary>
    TimingP95,

    /// <summary>Magnitude of a reading's bias, at most [unit of the kind].</summary>
    ReadingBias,

    /// <summary>Standard deviation of a reading's error, at most [unit of the kind].</summary>
    ReadingSd,

    /// <summary>Root mean square of a reading's error, at most [unit of the kind].</summary>
    ReadingRms,

    /// <summary>Share of usable time with a reading, at least [0 to 1].</summary>
    ReadingAvailableShare,

    /// <summary>Share of judged readings that are wrong, at most [0 to 1].</summary>
    ReadingWrongShare,

    /// <summary>When the first reading comes, lead-in included, at most [s].</summary>
    ReadingFirst,
}

/// <summary>What holds for all figures of a kind.</summary>
public static class RequiredFigures
{
    /// <summary>Whether larger values are better, so that a limit is a least value.</summary>
    /// <param name="figure">The figure.</param>
    public static bool IsLeast(this RequiredFigure figure) => figure is
        RequiredFigure.Sensitivity or RequiredFigure.PositivePredictivity or RequiredFigure.ReadingAvailableShare;
}
