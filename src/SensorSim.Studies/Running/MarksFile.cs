// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scoring;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Reads <c>detections.csv</c> as answers that a <see cref="Scorer"/> takes.</summary>
public static class MarksFile
{
    /// <summary>Reads a file row by row.</summary>
    /// <param name="path">Path of the file; only <c>channel</c>, <c>kind</c> and <c>time_ns</c> must be there.</param>
    /// <returns>The answers in the order of the file; it is open until all are read or the enumeration is disposed of.</returns>
    /// <exception cref="SensorSim.Files.InputFileException">The file is not what it should be.</exception>
    public static IEnumerable<TimedMark> Read(string path)
    {
        using var reader = new DetectionsCsvReader(path);
        foreach (DetectionRow row in reader.ReadAll())
        {
            yield return new TimedMark
            {
                Channel = row.Channel,
                Kind = row.Kind,
                TimeNs = row.TimeNs,
                Value = row.Value,
                PairedChannel = ChannelName.Ecg,
                PairedTimeNs = row.PairedTimeNs,
                WindowBeginNs = row.WindowBeginNs,
                EmittedTimeNs = row.EmittedTimeNs,
            };
        }
    }
}
