// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Judging;

/// <summary>What became of a requirement in a case.</summary>
public sealed record RequirementVerdict
{
    /// <summary>Name of the requirement.</summary>
    public required string RequirementId { get; init; }

    /// <summary>Name of the case.</summary>
    public required string CaseName { get; init; }

    /// <summary>How it ended.</summary>
    public required RequirementOutcome Outcome { get; init; }

    /// <summary>What was counted and measured, by name, with the limit where there is one.</summary>
    public required IReadOnlyList<VerdictFigure> Figures { get; init; }

    /// <summary>One sentence: what was reached, and what failed first.</summary>
    public required string Sentence { get; init; }

    /// <summary>Time of what failed first, nominal device time [ns]; null when nothing did.</summary>
    public long? FirstFaultNs { get; init; }

    /// <summary>Whether the plan lists a deviation that is none any more: its reason should leave the plan.</summary>
    public bool IsDeviationIdle { get; init; }

    /// <summary>Whether the requirement is not met without a reason that the plan knows, or could not be judged.</summary>
    public bool IsFault => Outcome is RequirementOutcome.NotMet or RequirementOutcome.NotJudged;
}

/// <summary>A figure of a verdict.</summary>
/// <param name="Name">Name in snake_case, with its unit.</param>
/// <param name="Value">Value; null when it is undefined.</param>
/// <param name="Limit">Limit; null when it has none.</param>
public sealed record VerdictFigure(string Name, double? Value, double? Limit = null);
