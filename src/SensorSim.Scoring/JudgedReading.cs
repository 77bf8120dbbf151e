// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Matching;

namespace SensorSim.Scoring;

/// <summary>A reading, once it is judged. Times in body time.</summary>
/// <param name="Mark">The reading.</param>
/// <param name="Place">Where it stands: scored, outside, in an unusable stretch.</param>
/// <param name="Truth">The true value; null where there was nothing to read or truth cannot judge it.</param>
/// <param name="IsWrong">Whether it counts as wrong.</param>
public readonly record struct JudgedReading(TimedMark Mark, Place Place, double? Truth, bool IsWrong);
