// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Readings;

/// <summary>How lists of stated capacity come to their room: those of a few minutes at first, then by doubling.</summary>
internal static class Room
{
    /// <summary>Entries that find room at once.</summary>
    public const int First = 256;

    /// <summary>Entries that find room next.</summary>
    /// <param name="entries">Those that do now.</param>
    /// <param name="capacity">Most that ever may.</param>
    public static int After(int entries, int capacity) => Math.Min(capacity, 2 * entries);
}
