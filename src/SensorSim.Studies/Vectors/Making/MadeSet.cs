// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>A set that has been made.</summary>
/// <param name="Manifest">What it says of itself.</param>
/// <param name="Cases">Its cases, in the plan's order.</param>
public sealed record MadeSet(SetManifest Manifest, IReadOnlyList<MadeCase> Cases)
{
    /// <summary>Why the set must not be shipped, a sentence each: requirements that the library misses although the plan lists no deviation, and such as nothing can be judged by.</summary>
    public IReadOnlyList<string> Faults =>
    [
        .. Verdicts.Where(v => v.IsFault).Select(v => v.Outcome == RequirementOutcome.NotMet
            ? $"case {v.CaseName}: {v.RequirementId} is not met: {v.Sentence}"
            : $"case {v.CaseName}: {v.RequirementId} cannot be judged: {v.Sentence}"),
    ];

    /// <summary>Deviations that the plan lists and that are none any more, a sentence each.</summary>
    public IReadOnlyList<string> PastDeviations =>
    [
        .. Verdicts.Where(v => v.IsDeviationIdle)
            .Select(v => $"case {v.CaseName}: {v.RequirementId} is listed as a known deviation, and is met: {v.Sentence}"),
    ];

    private IEnumerable<RequirementVerdict> Verdicts => Cases.SelectMany(c => c.Verdicts);
}
