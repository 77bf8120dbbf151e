// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Recordings;

/// <summary>Reads the files of recorded noise that a scenario names, and attaches them to their keys for the model.</summary>
internal static class Recordings
{
    // A million values of some 30 bytes with their times.
    private const int LargestBytes = 1 << 25;

    /// <summary>The files of recorded noise with the label, the rate and the levels that belong to each.</summary>
    public static IReadOnlyList<(TextKey File, TextKey Label, NumberKey Rate, NumberKey Level, NumberKey Ratio)> Keys { get; } =
    [
        (EcgNoiseKeys.RecordingFile, EcgNoiseKeys.RecordingLabel, EcgNoiseKeys.RecordingRateHz, EcgNoiseKeys.RecordingUvRms, EcgNoiseKeys.RecordingSnrDb),
        (RecordedLightKeys.File, RecordedLightKeys.Label, RecordedLightKeys.RateHz, RecordedLightKeys.NaRms, RecordedLightKeys.SnrDb),
    ];

    /// <summary>Reads every file that is named.</summary>
    /// <param name="draft">The scenario.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public static void Attach(ScenarioDraft draft, MistakeList mistakes)
    {
        foreach ((TextKey key, TextKey label, NumberKey rate, _, _) in Keys)
        {
            if (draft.Given.IsSet(key))
            {
                Attach(draft, key, label, rate, mistakes);
            }
        }
    }

    private static NoiseRecording? OnlyOneSignal(TextKey label, Action<string> report)
    {
        report($"{label.Name} chooses a signal of an EDF or BDF file; a CSV file holds one, leave out {label.Name}");
        return null;
    }

    private static void Attach(ScenarioDraft draft, TextKey key, TextKey label, NumberKey rate, MistakeList mistakes)
    {
        const string Right = "give the path of an EDF or BDF file, or of a CSV file with the column value, from the scenario's folder on";
        string path = draft.Given[key];
        string full = Path.Combine(Path.GetDirectoryName(draft.File) ?? "", path);
        byte[]? bytes = SmallFile.Read(
            full, LargestBytes, "32 MiB", "is no file", m => mistakes.Add(draft.Places[key.Name], $"{key.Name} = \"{TomlNames.Shown(path)}\" {m}; {Right}"));
        if (bytes is null)
        {
            return;
        }

        double? hertz = draft.Given.IsSet(rate) ? draft.Given[rate] : null;
        string? wanted = draft.Given.IsSet(label) ? draft.Given[label] : null;
        void Report(int line, int column, string message) => mistakes.AddIn(full, line, column, message);
        NoiseRecording? recording = EdfFileReader.IsEdf(full) ? EdfNoiseReader.Read(full, wanted, label.Name, hertz, rate.Name, message => Report(0, 0, message))
            : wanted is null ? RecordingReader.Read(SmallFile.Text(bytes), hertz, rate.Name, Report)
            : OnlyOneSignal(label, message => mistakes.Add(draft.Places[label.Name], message));
        if (recording is not null)
        {
            draft.Given.Attach(key, recording);
        }

        draft.ReferencedFiles.Add(new ReferencedFile(path, Sha256Sum.Of(bytes)));
    }
}
