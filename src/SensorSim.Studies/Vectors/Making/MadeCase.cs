// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>A case that has been made.</summary>
/// <param name="Case">The case.</param>
/// <param name="Facts">What the manifest says of it.</param>
/// <param name="Verdicts">How the library's own answers do, one for each requirement.</param>
public sealed record MadeCase(PlannedCase Case, ManifestCase Facts, IReadOnlyList<RequirementVerdict> Verdicts);
