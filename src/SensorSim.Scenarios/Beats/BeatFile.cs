// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Beats;

/// <summary>A file of beats that a scenario names.</summary>
/// <param name="FullPath">Path that leads there from where the program runs.</param>
/// <param name="Text">Its text.</param>
/// <param name="Reference">What enters the scenario's identity.</param>
public sealed record BeatFile(string FullPath, string Text, ReferencedFile Reference)
{
    // A day has about 100,000 beats, a line about 10 bytes: four days.
    private const int LargestBytes = 1 << 22;

    /// <summary>Reads a file; null and a sentence when that cannot be.</summary>
    /// <param name="path">Path as the scenario says it, from the scenario's folder on.</param>
    /// <param name="scenarioFile">Path of the scenario.</param>
    /// <param name="report">Takes what is wrong.</param>
    public static BeatFile? Read(string path, string scenarioFile, Action<string> report)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(report);
        const string Right = "give the path of a CSV file with the column rr_ms, from the scenario's folder on";
        string full = Path.Combine(Path.GetDirectoryName(scenarioFile) ?? "", path);
        try
        {
            if (Directory.Exists(full))
            {
                report($"is a folder; {Right}");
                return null;
            }

            using var file = new FileStream(full, FileMode.Open, FileAccess.Read, FileShare.Read);
            var bytes = new byte[LargestBytes + 1];
            int count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (count > LargestBytes)
            {
                report($"is larger than 4 MiB; {Right}");
                return null;
            }

            // Knows a byte order mark when it meets one.
            using var reader = new StreamReader(new MemoryStream(bytes, 0, count), new UTF8Encoding(false));
            return new BeatFile(
                full, reader.ReadToEnd(), new ReferencedFile(path, Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan(0, count)))));
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or ArgumentException)
        {
            report($"is no file; {Right}");
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            report($"cannot be read: {TomlNames.FirstLine(e.Message)}; {Right}");
            return null;
        }
    }
}
