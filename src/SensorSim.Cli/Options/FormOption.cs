// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Files.Exports;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli.Options;

/// <summary>The option that says in which forms a recording is stored.</summary>
internal static class FormOption
{
    /// <summary>Creates it.</summary>
    public static Option<string[]> Create() => new("--format")
    {
        Description = $"Form of the files: {string.Join(", ", RecordingForms.All)}; csv unless given; several with commas or several times",
        HelpName = "FORMAT",
    };

    /// <summary>Reads it: each form once, in the order of the forms; CSV when nothing is said.</summary>
    /// <param name="values">What was given.</param>
    /// <exception cref="UsageException">A word is no form.</exception>
    public static IReadOnlyList<RecordingForm> Read(string[]? values)
    {
        string[] words = [.. (values ?? []).SelectMany(v => v.Split(',', StringSplitOptions.TrimEntries))];
        return words.Length == 0 ? [RecordingForm.Csv] : [.. words.Select(Form).Distinct().Order()];
    }

    private static RecordingForm Form(string word) => RecordingForms.TryParse(word, out RecordingForm form)
        ? form
        : throw new UsageException($"--format {word} is no form of a recording; the nearest is {NearestName.Find(word, RecordingForms.All)} of {string.Join(", ", RecordingForms.All)}");
}
