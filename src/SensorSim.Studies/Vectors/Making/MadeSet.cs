// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>A set that has been made.</summary>
/// <param name="Manifest">What it says of itself.</param>
/// <param name="Cases">Its cases, in the plan's order.</param>
public sealed record MadeSet(SetManifest Manifest, IReadOnlyList<MadeCase> Cases)
{
    /// <summary>Requirements that the library misses although the plan lists no deviation.</summary>
    public IEnumerable<RequirementVerdict> Missed => Cases.SelectMany(c => c.Verdicts).Where(v => v.Result == RequirementResult.NotMet);
}
