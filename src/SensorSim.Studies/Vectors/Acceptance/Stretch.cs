// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>A stretch of time.</summary>
/// <param name="BeginNs">Begin [ns].</param>
/// <param name="EndNs">End, not included [ns].</param>
internal readonly record struct Stretch(long BeginNs, long EndNs)
{
    /// <summary>Length [ns].</summary>
    public long LengthNs => EndNs - BeginNs;

    public bool Contains(long timeNs) => timeNs >= BeginNs && timeNs < EndNs;

    public bool Contains(Stretch other) => other.BeginNs >= BeginNs && other.EndNs <= EndNs;
}
