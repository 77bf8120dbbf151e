// SPDX-License-Identifier: MIT
namespace SensorSim.Grading.Report;

/// <summary>One line of the table.</summary>
/// <param name="Input">What was fed in.</param>
/// <param name="Requirement">What is asked for.</param>
/// <param name="Measured">What came out, with counts and intervals.</param>
/// <param name="Verdict">Met, or by how much not.</param>
internal sealed record FigureRow(string Input, string Requirement, string Measured, string Verdict);
