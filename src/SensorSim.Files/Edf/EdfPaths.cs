// SPDX-License-Identifier: MIT
using SensorSim.Files.Recordings;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>The files of one recording, and the stream that they make together.</summary>
internal static class EdfPaths
{
    /// <summary>A file as it is; of a folder its EDF and BDF files, in the order of their names.</summary>
    public static IReadOnlyList<string> Of(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        if (!Directory.Exists(path))
        {
            return [path];
        }

        string[] files = [.. RecordingKinds.EdfFiles(path)];
        return files.Length > 0 ? files : throw new InputFileException(path, 0, 0, "there is no .edf or .bdf file in this folder; give a file, or the folder of a recording.");
    }

    /// <summary>The channels of all files on one clock.</summary>
    /// <exception cref="InputFileException">No signal is a channel, a channel is there twice, or the files do not belong together.</exception>
    public static StreamFormat Join(IReadOnlyList<EdfReaderFile> files, EdfReadOptions options)
    {
        EdfFileReader first = files[0].Reader;
        foreach (string label in options.Map.Keys)
        {
            if (!files.Any(f => f.Reader.Header.Signals.Any(s => !s.IsAnnotation && string.Equals(s.Label, label.Trim(), StringComparison.OrdinalIgnoreCase))))
            {
                throw first.Error($"there is no signal {Text.InputFiles.Quote(label)}; the signals are {EdfSignalMap.Labels(first.Header)}.");
            }
        }

        var channels = new List<ChannelFormat>();
        foreach (EdfReaderFile file in files)
        {
            if (file.Reader.Header.Start != first.Header.Start)
            {
                throw file.Reader.Error($"the file begins at another time than {first.FileName}; files of one recording begin together.");
            }

            foreach (EdfMapped mapped in file.Mapped)
            {
                if (channels.Exists(c => c.Name == mapped.Channel.Name))
                {
                    throw file.Reader.Error($"{mapped.Channel.Name.Text()} is in another file of the recording already.");
                }

                channels.Add(mapped.Channel);
            }
        }

        if (channels.Count == 0)
        {
            throw first.Error($"no signal is named as one that can be read ({string.Join(", ", Enum.GetValues<ChannelName>().Select(EdfLabels.Of))}); say which is which of {EdfSignalMap.Labels(first.Header)}, such as --map \"LABEL=ecg\".");
        }

        try
        {
            return new StreamFormat(channels.OrderBy(c => c.Name));
        }
        catch (Exception e) when (e is ArgumentOutOfRangeException or OverflowException)
        {
            throw new InputFileException(first.FileName, 0, 0, "the rates have no common multiple up to 1 GHz; map fewer signals.", e);
        }
    }
}
