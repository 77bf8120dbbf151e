// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.Tests;

/// <summary>Finds files of the source tree from wherever the tests were built.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string[] ShippedScenarios =>
        [.. Directory.GetFiles(Path.Combine(Root, "waveforms", "scenarios"), "*.toml").Order(StringComparer.Ordinal)];

    private static string FindRoot()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
