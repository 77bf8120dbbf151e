// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A requirement that the library of this project is known not to meet in a case.</summary>
/// <param name="RequirementId">The requirement.</param>
/// <param name="Reason">Why, in a sentence.</param>
public sealed record PlannedDeviation(string RequirementId, string Reason);
