// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Exports;

/// <summary>The forms in which a stream can be stored.</summary>
public enum RecordingForm
{
    /// <summary>A folder of CSV files, the form that every verb reads back with all that it holds.</summary>
    Csv,

    /// <summary>BDF+: 24 bits, one file for each device.</summary>
    Bdf,

    /// <summary>EDF+: 16 bits, one file for each device.</summary>
    Edf,

    /// <summary>NPY: arrays of codes, sample indices and status words for each channel.</summary>
    Npy,

    /// <summary>Apache Parquet: a table for each channel.</summary>
    Parquet,
}

/// <summary>The words for the forms.</summary>
public static class RecordingForms
{
    private static readonly string[] s_words = ["csv", "bdf", "edf", "npy", "parquet"];

    /// <summary>Every word, in the order of the forms.</summary>
    public static IReadOnlyList<string> All => s_words;

    /// <summary>The word for a form.</summary>
    /// <param name="form">The form.</param>
    public static string Text(this RecordingForm form) => s_words[(int)form];

    /// <summary>Reads a word; exact, lower case.</summary>
    /// <param name="text">The word.</param>
    /// <param name="form">The form, when the word is known.</param>
    /// <returns>Whether it is known.</returns>
    public static bool TryParse(string text, out RecordingForm form)
    {
        int index = Array.IndexOf(s_words, text);
        form = index < 0 ? default : (RecordingForm)index;
        return index >= 0;
    }
}
