// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Names of the files of a vector set, and what a name in it may look like.</summary>
public static class SetNames
{
    /// <summary>What is in the set.</summary>
    public const string Manifest = "manifest.json";

    /// <summary>Sum of the manifest, as <c>sha256sum -c</c> reads it.</summary>
    public const string Sidecar = "manifest.sha256";

    /// <summary>The plan.</summary>
    public const string Plan = "plan.toml";

    /// <summary>The set for a reader.</summary>
    public const string Index = "index.md";

    /// <summary>Folder of the files that the plan names.</summary>
    public const string Sources = "sources";

    /// <summary>Truth of a case.</summary>
    public const string Truth = "truth.csv";

    /// <summary>Acquisition of a case.</summary>
    public const string Acquisition = "acquisition.csv";

    /// <summary>What every detector has to answer in a case.</summary>
    public const string Acceptance = "acceptance.csv";

    /// <summary>What the library answers in a case.</summary>
    public const string Expected = "expected.csv";

    /// <summary>Picture of a case.</summary>
    public const string Picture = "picture.png";

    /// <summary>Channels of a raw stimulus.</summary>
    public const string StimulusChannels = "stimulus-channels.csv";

    /// <summary>Columns of the stretches of a raw channel.</summary>
    public const string RunsHeader = "first_sample,count,status";

    private const int LongestPath = 200;
    private const int LongestName = 80;

    // Names that some systems keep for devices, with or without an ending.
    private static readonly string[] s_reserved =
    [
        "con", "prn", "aux", "nul", .. Enumerable.Range(1, 9).SelectMany(i => new[] { $"com{i}", $"lpt{i}" }),
    ];

    /// <summary>Samples of a raw channel: int32, little-endian.</summary>
    /// <param name="channel">The channel.</param>
    public static string Codes(ChannelName channel) => channel.Text() + ".i32";

    /// <summary>Stretches of a raw channel.</summary>
    /// <param name="channel">The channel.</param>
    public static string Runs(ChannelName channel) => channel.Text() + "-runs.csv";

    /// <summary>What is wrong with the path of a file in a set, as the end of a sentence; null: nothing.</summary>
    /// <param name="path">Path from the set's folder on, parted by slashes.</param>
    /// <remarks>Only what every system takes: letters, digits, point, hyphen and underscore; nothing that leads out of the folder.</remarks>
    public static string? Fault(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (path.Length is 0 or > LongestPath)
        {
            return $"must have 1 to {LongestPath} characters";
        }

        foreach (string name in path.Split('/'))
        {
            if (name.Length is 0 or > LongestName || name[0] is '.' or '-' || name[^1] == '.')
            {
                return $"must be a relative path whose names have 1 to {LongestName} characters and begin with a letter, digit or underscore";
            }

            if (!name.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_'))
            {
                return "may hold letters, digits, points, hyphens and underscores only, parted by slashes";
            }

            if (s_reserved.Contains(name.Split('.')[0].ToLowerInvariant(), StringComparer.Ordinal))
            {
                return $"must not hold {name}, which some systems keep for a device";
            }
        }

        return null;
    }
}
