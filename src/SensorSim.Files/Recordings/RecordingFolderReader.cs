// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Recordings;

/// <summary>Reads a folder written by <see cref="RecordingFolderWriter"/> as a stream: the same codes, status words and gaps.</summary>
public sealed class RecordingFolderReader : ChannelFilesReader
{
    /// <summary>Opens a recording.</summary>
    /// <param name="path">Path of the folder.</param>
    /// <exception cref="InputFileException">A file is missing or not what it should be.</exception>
    public RecordingFolderReader(string path)
        : base(ChannelsOf(path), (channel, endIndex) => new ChannelSamples(Path.Combine(path, RecordingNames.Samples(channel.Name)), channel, endIndex))
    {
    }

    /// <summary>Whether a folder looks like a recording of this kind.</summary>
    /// <param name="path">Path of the folder.</param>
    public static bool IsRecording(string path) => File.Exists(ChannelsOf(path));

    private static string ChannelsOf(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return Path.Combine(path, RecordingNames.Channels);
    }
}
