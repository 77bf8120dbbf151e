// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Judging;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>What came out of looking at a set.</summary>
/// <param name="Findings">What is wrong, file by file; none: the set is whole, and this program makes every bit of it again.</param>
/// <param name="Manifest">The manifest on the disk; null when it cannot be read.</param>
/// <param name="Sums">One sum for each stream of each case as made here; empty when nothing could be made.</param>
/// <param name="WhyNotMade">Why nothing was made again: the end of a sentence; empty when all was.</param>
public sealed record SetVerification(
    IReadOnlyList<SetFinding> Findings, SetManifest? Manifest, IReadOnlyList<(string Case, StreamSums Sums)> Sums, string WhyNotMade)
{
    /// <summary>How the library's answers, given anew, do in every case; empty when nothing could be made.</summary>
    public IReadOnlyList<RequirementVerdict> Verdicts { get; init; } = [];

    /// <summary>Files that were looked at.</summary>
    public int FileCount { get; init; }

    /// <summary>Whether nothing is wrong.</summary>
    public bool IsSound => Findings.Count == 0;
}
