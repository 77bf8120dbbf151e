// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Identity;

namespace SensorSim.Scenarios.Beats;

/// <summary>A file of beats that a scenario names.</summary>
/// <param name="FullPath">Path that leads there from where the program runs.</param>
/// <param name="Text">Its text; empty of an EDF or BDF file, which is read from its path.</param>
/// <param name="IsEdf">Whether it is an EDF or BDF file.</param>
/// <param name="Reference">What enters the scenario's identity.</param>
public sealed record BeatFile(string FullPath, string Text, bool IsEdf, ReferencedFile Reference)
{
    // A day has about 100,000 beats, a line about 10 bytes: four days.
    private const int LargestBytes = 1 << 22;

    // Beats that stand beside the signals they were marked in.
    private const int LargestEdfBytes = 1 << 25;

    /// <summary>Reads a file; null and a sentence when that cannot be.</summary>
    /// <param name="path">Path as the scenario says it, from the scenario's folder on.</param>
    /// <param name="scenarioFile">Path of the scenario.</param>
    /// <param name="report">Takes what is wrong.</param>
    public static BeatFile? Read(string path, string scenarioFile, Action<string> report)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        const string Right = "give the path of a CSV file with the column rr_ms, or of an EDF+ or BDF+ file, from the scenario's folder on";
        string full = Path.Combine(Path.GetDirectoryName(scenarioFile) ?? "", path);
        bool isEdf = File.Exists(full) && EdfFileReader.IsEdf(full);
        return SmallFile.Read(full, isEdf ? LargestEdfBytes : LargestBytes, isEdf ? "32 MiB" : "4 MiB", "is no file", m => report($"{m}; {Right}")) is byte[] bytes
            ? new BeatFile(full, isEdf ? "" : SmallFile.Text(bytes), isEdf, new ReferencedFile(path, Sha256Sum.Of(bytes)))
            : null;
    }
}
