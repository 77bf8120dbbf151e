// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Vectors.Judging;

/// <summary>How a requirement ended in a case.</summary>
public enum RequirementOutcome
{
    /// <summary>It is met.</summary>
    Met,

    /// <summary>It is not met.</summary>
    NotMet,

    /// <summary>The library of this project does not meet it, and the plan says why.</summary>
    KnownDeviation,

    /// <summary>There was nothing to judge, or the answers do not say what is needed.</summary>
    NotJudged,
}

/// <summary>The words of the outcomes in files.</summary>
public static class RequirementOutcomes
{
    private static readonly string[] s_words = ["met", "not_met", "known_deviation", "not_judged"];

    /// <summary>Every word, in the order of <see cref="RequirementOutcome"/>.</summary>
    public static IReadOnlyList<string> Words => s_words;

    /// <summary>The word of an outcome.</summary>
    /// <param name="outcome">A defined outcome.</param>
    public static string Text(this RequirementOutcome outcome) => s_words[(int)outcome];
}
