// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads what <see cref="RawRecordingWriter"/> wrote as a stream: the same codes, status words and gaps.</summary>
public sealed class RawRecordingReader : ChannelFilesReader
{
    /// <summary>Opens a stimulus.</summary>
    /// <param name="folder">Path of the case's folder.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be.</exception>
    public RawRecordingReader(string folder)
        : base(ChannelsOf(folder), (channel, endIndex) => new RawChannelReader(folder, channel, endIndex))
    {
    }

    /// <summary>Whether a folder holds a stimulus of this kind.</summary>
    /// <param name="folder">Path of the folder.</param>
    public static bool IsThere(string folder) => File.Exists(ChannelsOf(folder));

    private static string ChannelsOf(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        return Path.Combine(folder, SetNames.StimulusChannels);
    }
}
