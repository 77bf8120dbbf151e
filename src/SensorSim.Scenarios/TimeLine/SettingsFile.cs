// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>A settings schedule in a file of its own, as a run with a closed loop logs it.</summary>
/// <param name="Changes">Its rows, in order of time.</param>
/// <param name="Reference">What enters the identity of the stream.</param>
public sealed record SettingsFile(IReadOnlyList<SettingChange> Changes, ReferencedFile Reference)
{
    // Some 40 bytes to a row: ten changes a second over most of a day.
    private const int LargestBytes = 1 << 25;

    /// <summary>Reads a file.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="values">Values of the scenario, which say what channels there are and how far their settings go.</param>
    /// <exception cref="InputFileException">The file is missing or not what it should be.</exception>
    public static SettingsFile Read(string path, KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(values);
        string wrong = "";
        byte[] bytes = SmallFile.Read(path, LargestBytes, "32 MiB", "there is no such file", m => wrong = m)
            ?? throw new InputFileException(path.Length == 0 ? "settings" : path, 0, 0, $"{wrong}; give the path of a settings.csv.");
        using var reader = new SettingsCsvReader(new MemoryStream(bytes), path, Limits);
        return new SettingsFile([.. reader.ReadAll()], new ReferencedFile(path, Sha256Sum.Of(bytes)));

        SettingLimits Limits(ChannelName channel, SensorSetting setting) =>
            channel == ChannelName.Green && !OpticalSlots.HasGreen(values) ? SettingLimits.None : SettingRanges.Of(values, channel, setting);
    }
}
