// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Studies.FailurePoints;

/// <summary>What was reached at one level.</summary>
/// <param name="Point">Index of the study's point.</param>
/// <param name="Level">The level, in the unit of the key.</param>
/// <param name="Figure">The figure: pooled over seeds and subjects, or the share of runs that meet the requirement; null when undefined.</param>
/// <param name="Interval">Its 95 % interval by resampling whole seeds and subjects; null when undefined.</param>
/// <param name="RunCount">Runs behind it.</param>
/// <param name="EventCount">Events or readings behind it.</param>
public sealed record LevelFigure(int Point, double Level, double? Figure, Interval? Interval, long RunCount, long EventCount);
