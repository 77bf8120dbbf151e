// SPDX-License-Identifier: MIT
namespace SensorSim.Files.VectorSets;

/// <summary>What a row of <c>acceptance.csv</c> asks of the answers whose time lies in it.</summary>
public enum AcceptanceRule
{
    /// <summary>Exactly one.</summary>
    One,

    /// <summary>None.</summary>
    None,

    /// <summary>Any number; each value from low to high.</summary>
    Within,

    /// <summary>At least one; with low and high at least one whose value lies there.</summary>
    Some,

    /// <summary>At least one that was emitted in time; the start of the case counts.</summary>
    First,

    /// <summary>At least one that was emitted in time; an event counts.</summary>
    By,
}

/// <summary>The words of the rules in files.</summary>
public static class AcceptanceRules
{
    private static readonly string[] s_words = ["one", "none", "within", "some", "first", "by"];

    /// <summary>Every word, in the order of <see cref="AcceptanceRule"/>.</summary>
    public static IReadOnlyList<string> Words => s_words;

    /// <summary>The word of a rule.</summary>
    /// <param name="rule">A defined rule.</param>
    public static string Text(this AcceptanceRule rule) => s_words[(int)rule];
}
