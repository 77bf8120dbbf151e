// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>A file that a scenario names: part of the scenario's identity.</summary>
/// <param name="Path">Path as the scenario says it.</param>
/// <param name="Sha256">SHA-256 of its bytes, 64 lower-case hexadecimal digits.</param>
public sealed record ReferencedFile(string Path, string Sha256);
