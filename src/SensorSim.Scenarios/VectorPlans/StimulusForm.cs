// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.VectorPlans;

/// <summary>A form in which a case's samples are shipped.</summary>
public enum StimulusForm
{
    /// <summary>One BDF+ file.</summary>
    Bdf,

    /// <summary>Little-endian 32-bit integers, a file per channel.</summary>
    Raw,
}

/// <summary>The words of the forms in files.</summary>
public static class StimulusForms
{
    private static readonly string[] s_words = ["bdf", "raw"];

    /// <summary>Every word, in the order of <see cref="StimulusForm"/>.</summary>
    public static IReadOnlyList<string> Words => s_words;

    /// <summary>The word of a form.</summary>
    /// <param name="form">A defined form.</param>
    public static string Text(this StimulusForm form) => s_words[(int)form];

    internal static StimulusForm Of(string word) => (StimulusForm)Array.IndexOf(s_words, word);
}
