// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Plans;

/// <summary>The constants that were chosen for one detector.</summary>
/// <param name="Detector">Index of the detector.</param>
/// <param name="Constants">The varied constants and their chosen values, in the order of the study.</param>
/// <param name="Figure">
/// Figure of the deciding requirement that they reached on the tuning seeds, on the channel where it was worst; null: it was undefined for
/// every choice.
/// </param>
public sealed record TunedConstants(int Detector, IReadOnlyList<(string Name, double Value)> Constants, double? Figure);
