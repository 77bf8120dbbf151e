// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.VectorPlans;

/// <summary>What a requirement of a vector plan asks.</summary>
public enum RequirementRule
{
    /// <summary>Every event of truth is marked once, and nothing else is.</summary>
    Marks,

    /// <summary>Every value that is given lies near the truth, and enough are given.</summary>
    Readings,

    /// <summary>Nothing is given where nothing can be known.</summary>
    Withheld,

    /// <summary>A mark appears soon after a stretch begins.</summary>
    Shown,

    /// <summary>Marks are given soon after what they tell of.</summary>
    Prompt,
}

/// <summary>The words of the rules in files.</summary>
public static class RequirementRules
{
    private static readonly string[] s_words = ["marks", "readings", "withheld", "shown", "prompt"];

    /// <summary>Every word, in the order of <see cref="RequirementRule"/>.</summary>
    public static IReadOnlyList<string> Words => s_words;

    /// <summary>The word of a rule.</summary>
    /// <param name="rule">A defined rule.</param>
    public static string Text(this RequirementRule rule) => s_words[(int)rule];

    internal static RequirementRule Of(string word) => (RequirementRule)Array.IndexOf(s_words, word);
}
