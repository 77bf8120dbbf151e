// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Reading;

/// <summary>Takes the text out of a scenario file.</summary>
internal static class ScenarioFile
{
    // A scenario is a page of text.
    private const int LargestBytes = 1 << 20;

    public static string ReadText(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string place = path.Length == 0 ? "scenario" : path;
        string wrong = "";
        byte[]? bytes = SmallFile.Read(path, LargestBytes, "1 MiB, and a scenario is a page of text", "there is no such file", m => wrong = m);
        return bytes is not null
            ? SmallFile.Text(bytes)
            : throw new ScenarioException([new ScenarioMistake(place, 0, 0, $"{wrong}; give the path of a scenario (TOML)")]);
    }
}
