// SPDX-License-Identifier: MIT
namespace SensorSim.Scoring.Matching;

/// <summary>How a point in time takes part in scoring.</summary>
public enum Place
{
    /// <summary>It is scored.</summary>
    Scored,

    /// <summary>It lies in the lead-in or in the last second.</summary>
    Outside,

    /// <summary>It lies in a stretch that is marked as unusable.</summary>
    Unusable,
}
