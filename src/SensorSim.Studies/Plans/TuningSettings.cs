// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>On what the constants of the detectors are chosen. The figure of the study's first requirement decides.</summary>
/// <param name="Seeds">Seeds, at least one, none of them a seed of the study.</param>
public sealed record TuningSettings(IReadOnlyList<ulong> Seeds);
