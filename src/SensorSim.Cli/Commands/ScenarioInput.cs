// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli.Commands;

/// <summary>Reads the scenario that a verb was given.</summary>
internal static class ScenarioInput
{
    /// <summary>Reads it, with the seed of the command line when there is one.</summary>
    public static Scenario Read(string path, long? seed)
    {
        Scenario scenario = ScenarioReader.ReadFile(path);
        return seed is long own ? scenario.WithSeed((ulong)own) : scenario;
    }
}
