// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>Takes the text out of a scenario file.</summary>
internal static class ScenarioFile
{
    // A scenario is a page of text; a recording or an endless device given by mistake must not fill the memory.
    private const int LargestBytes = 1 << 20;

    public static string ReadText(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (Directory.Exists(path))
        {
            throw Mistake(path, "is a folder; give the path of a scenario (TOML)");
        }

        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            var bytes = new byte[LargestBytes + 1];
            int count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (count > LargestBytes)
            {
                throw Mistake(path, "is larger than 1 MiB; give the path of a scenario (TOML), which is a page of text");
            }

            // Knows a byte order mark when it meets one.
            using var reader = new StreamReader(new MemoryStream(bytes, 0, count));
            return reader.ReadToEnd();
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or ArgumentException)
        {
            throw Mistake(path.Length == 0 ? "scenario" : path, "there is no such file; give the path of a scenario (TOML)");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Mistake(path, $"cannot be read: {TomlNames.FirstLine(e.Message)}; give the path of a scenario (TOML)");
        }
    }

    private static ScenarioException Mistake(string path, string message) => new([new ScenarioMistake(path, 0, 0, message)]);
}
