// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Making;

/// <summary>A file that is copied into a set as it is.</summary>
/// <param name="Path">Path from the set's folder on, parted by slashes.</param>
/// <param name="Bytes">Its bytes.</param>
public sealed record SetSource(string Path, ReadOnlyMemory<byte> Bytes);
