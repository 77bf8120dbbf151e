// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.VectorPlans;

/// <summary>How hard a case of a vector plan is for a detector.</summary>
public enum CaseLevel
{
    /// <summary>A sound detector has room to spare.</summary>
    Pass,

    /// <summary>A sound detector just meets its requirements.</summary>
    NearLimit,

    /// <summary>A sound detector gives nothing for a part of the case or all of it.</summary>
    MustRefuse,
}

/// <summary>The words of the levels in files.</summary>
public static class CaseLevels
{
    private static readonly string[] s_words = ["pass", "near_limit", "must_refuse"];

    /// <summary>Every word, in the order of <see cref="CaseLevel"/>.</summary>
    public static IReadOnlyList<string> Words => s_words;

    /// <summary>The word of a level.</summary>
    /// <param name="level">A defined level.</param>
    public static string Text(this CaseLevel level) => s_words[(int)level];

    internal static CaseLevel Of(string word) => (CaseLevel)Array.IndexOf(s_words, word);
}
