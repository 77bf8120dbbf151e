// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>What a picture of a case can show.</summary>
/// <param name="Case">The case.</param>
/// <param name="Captured">Samples, truth and the library's marks.</param>
/// <param name="Acceptance">What every detector has to answer.</param>
/// <param name="Acquisition">What the acquisition did.</param>
public sealed record CasePicture(
    PlannedCase Case, FirstSeconds Captured, IReadOnlyList<AcceptanceRow> Acceptance, IReadOnlyList<AcquisitionRow> Acquisition)
{
    /// <summary>Longest stretch from the start that is captured [s].</summary>
    public const double LongestS = 120;
}
