// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Fitting;

/// <summary>What was counted at one level.</summary>
/// <param name="Level">The level.</param>
/// <param name="Trials">Trials, at least 0; a level without any says nothing.</param>
/// <param name="Successes">Successes, 0 to <paramref name="Trials"/>.</param>
public readonly record struct BinomialLevel(double Level, double Trials, double Successes);
