// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.FailurePoints;

/// <summary>What became of the search for a failure point.</summary>
public enum FailurePointState
{
    /// <summary>The curve crosses the requirement inside of the levels: there is a failure point.</summary>
    Found,

    /// <summary>The requirement is met at every level.</summary>
    MetEverywhere,

    /// <summary>The requirement is met at no level.</summary>
    MetNowhere,

    /// <summary>The figures do not fall or rise steadily with the level, or there are too few to fit a curve.</summary>
    NoCurve,
}
