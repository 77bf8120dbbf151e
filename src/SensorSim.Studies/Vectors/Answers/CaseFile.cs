// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>The answers to one case, as a file or a detector gave them.</summary>
/// <param name="From">Where they come from, for messages.</param>
/// <param name="Columns">Which columns of <c>detections.csv</c> they have.</param>
/// <param name="Rows">The answers, in the order in which they were given.</param>
public sealed record CaseFile(string From, IReadOnlyList<string> Columns, IReadOnlyList<AnswerRow> Rows)
{
    /// <summary>SHA-256 of the file, or of what a detector answered as <c>detections.csv</c> has it: which answers they were, to the bit; empty when not known.</summary>
    public string Sha256 { get; init; } = "";
}
