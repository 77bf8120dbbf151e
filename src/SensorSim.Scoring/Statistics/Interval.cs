// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Statistics;

/// <summary>A confidence interval.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Interval(double Low, double High);
