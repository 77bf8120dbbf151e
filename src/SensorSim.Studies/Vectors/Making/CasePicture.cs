// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>What a picture of a case can show.</summary>
/// <param name="Case">The case.</param>
/// <param name="Captured">Samples, truth and the library's marks.</param>
/// <param name="Demands">Where nothing may be given, where something must be, and what values are allowed.</param>
public sealed record CasePicture(PlannedCase Case, FirstSeconds Captured, IReadOnlyList<CaseDemand> Demands)
{
    /// <summary>Longest stretch from the start that is captured [s].</summary>
    public const double LongestS = 120;
}

/// <summary>A stretch of a case in which something is asked of the answers.</summary>
/// <param name="Requirement">Name of the requirement.</param>
/// <param name="Channel">Channel; null: any.</param>
/// <param name="Kind">What is asked.</param>
/// <param name="BeginS">Begin [s].</param>
/// <param name="EndS">End [s].</param>
/// <param name="Low">Least value, of allowed values.</param>
/// <param name="High">Greatest value, of allowed values.</param>
public sealed record CaseDemand(string Requirement, ChannelName? Channel, DemandKind Kind, double BeginS, double EndS, double Low, double High);

/// <summary>What is asked of the answers in a stretch.</summary>
public enum DemandKind
{
    /// <summary>None.</summary>
    Nothing,

    /// <summary>At least one.</summary>
    Something,

    /// <summary>Values within limits.</summary>
    Values,
}
