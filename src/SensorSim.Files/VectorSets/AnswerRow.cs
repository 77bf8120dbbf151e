// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;

namespace SensorSim.Files.VectorSets;

/// <summary>An answer that is held against a vector set: of a device, or of another implementation.</summary>
/// <param name="CaseName">Case it belongs to; empty when the file has no such column.</param>
/// <param name="Mark">The answer; what the file does not say is as <see cref="DetectionsCsvReader"/> has it.</param>
/// <param name="SaysWhenEmitted">Whether it says when it was emitted.</param>
public readonly record struct AnswerRow(string CaseName, DetectionRow Mark, bool SaysWhenEmitted)
{
    /// <summary>Whether the row names a case and nothing else: the case was run, and this row is no answer.</summary>
    public bool IsNothing { get; init; }
}
