// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Recordings;

/// <summary>Reads the files of recorded noise that a scenario names, and attaches them to their keys for the model.</summary>
internal static class Recordings
{
    // A million values of some 30 bytes with their times.
    private const int LargestBytes = 1 << 25;

    /// <summary>The files of recorded noise with the rate and the levels that belong to each.</summary>
    public static IReadOnlyList<(TextKey File, NumberKey Rate, NumberKey Level, NumberKey Ratio)> Keys { get; } =
    [
        (EcgNoiseKeys.RecordingFile, EcgNoiseKeys.RecordingRateHz, EcgNoiseKeys.RecordingUvRms, EcgNoiseKeys.RecordingSnrDb),
        (RecordedLightKeys.File, RecordedLightKeys.RateHz, RecordedLightKeys.NaRms, RecordedLightKeys.SnrDb),
    ];

    /// <summary>Reads every file that is named.</summary>
    /// <param name="draft">The scenario.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public static void Attach(ScenarioDraft draft, MistakeList mistakes)
    {
        foreach ((TextKey key, NumberKey rate, _, _) in Keys)
        {
            if (draft.Given.IsSet(key))
            {
                Attach(draft, key, rate, mistakes);
            }
        }
    }

    private static void Attach(ScenarioDraft draft, TextKey key, NumberKey rate, MistakeList mistakes)
    {
        const string Right = "give the path of a CSV file with the column value, from the scenario's folder on";
        string path = draft.Given[key];
        string full = Path.Combine(Path.GetDirectoryName(draft.File) ?? "", path);
        byte[]? bytes = SmallFile.Read(
            full, LargestBytes, "32 MiB", "is no file", m => mistakes.Add(draft.Places[key.Name], $"{key.Name} = \"{TomlNames.Shown(path)}\" {m}; {Right}"));
        if (bytes is null)
        {
            return;
        }

        double? hertz = draft.Given.IsSet(rate) ? draft.Given[rate] : null;
        NoiseRecording? recording = RecordingReader.Read(
            SmallFile.Text(bytes), hertz, rate.Name, (line, column, message) => mistakes.AddIn(full, line, column, message));
        if (recording is not null)
        {
            draft.Given.Attach(key, recording);
        }

        draft.ReferencedFiles.Add(new ReferencedFile(path, Convert.ToHexStringLower(SHA256.HashData(bytes))));
    }
}
