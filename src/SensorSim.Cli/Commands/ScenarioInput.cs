// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.TimeLine;

namespace SensorSim.Cli.Commands;

/// <summary>Reads the scenario that a verb was given.</summary>
internal static class ScenarioInput
{
    /// <summary>Reads it, with the length, the seeds, the sensor and the settings of the command line when there are any.</summary>
    public static Scenario Read(string path, long? seed, long? subjectSeed, string? sensor, string? settings, double? durationS = null)
    {
        Scenario scenario = ScenarioReader.ReadFile(path, sensor is null ? null : SensorReader.ReadFile(sensor));
        scenario = durationS is double length ? scenario.With([new KeyValue(ScenarioKeys.DurationS, length)]) : scenario;
        scenario = subjectSeed is long person ? scenario.WithSubject((ulong)person) : scenario;
        scenario = settings is null ? scenario : scenario.WithSettings(SettingsFile.Read(settings, scenario.Values));
        return seed is long own ? scenario.WithSeed((ulong)own) : scenario;
    }
}
