// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Vectors;

/// <summary>A row of a picture: what is asked over time, and what the library answered, without a height.</summary>
/// <param name="Text">What the row is about.</param>
/// <param name="Forbidden">Stretches in which nothing of it may be given [s].</param>
/// <param name="Wanted">Stretches in which it must begin [s].</param>
/// <param name="Open">Stretches in which the library's gate is open [s].</param>
/// <param name="Given">The library's answers: time [s], and a word where one helps.</param>
internal sealed record CaseLane(
    string Text,
    IReadOnlyList<(double BeginS, double EndS)> Forbidden,
    IReadOnlyList<(double BeginS, double EndS)> Wanted,
    IReadOnlyList<(double BeginS, double EndS)> Open,
    IReadOnlyList<(double TimeS, string Word)> Given);
