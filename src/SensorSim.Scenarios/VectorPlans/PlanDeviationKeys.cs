// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Keys of <c>[[case.deviation]]</c>.</summary>
public static class PlanDeviationKeys
{
    internal const string Section = "case.deviation";

    /// <summary>Requirement.</summary>
    public static readonly TextKey Requirement = PlanSetKeys.Line("case.deviation.requirement", "Name of the requirement that the library of this project is known not to meet in the case; must be given.", 40);

    /// <summary>Reason.</summary>
    public static readonly TextKey Reason = PlanSetKeys.Line("case.deviation.reason", "Why it does not meet it, in a sentence; must be given.", 1000);

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Requirement, Reason];
}
