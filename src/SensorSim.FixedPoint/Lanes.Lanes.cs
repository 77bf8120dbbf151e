// SPDX-License-Identifier: MIT
namespace SensorSim.FixedPoint;

/// <summary>Lanes of a vector, as every way in vectors of words takes them.</summary>
public static class Lanes
{
    /// <summary>Words that a vector of 256 bits holds: so many neighbouring samples go at once, and fewer than that go one by one.</summary>
    public const int Count = 8;
}
