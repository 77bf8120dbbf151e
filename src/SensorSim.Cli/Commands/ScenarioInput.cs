// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Commands;

/// <summary>Reads the scenario that a verb was given.</summary>
internal static class ScenarioInput
{
    /// <summary>Reads it, with the length, the seeds, the sensor and the settings of the command line when there are any.</summary>
    public static Scenario Read(string path, long? seed, long? subjectSeed, string? sensor, string? settings, double? durationS = null)
    {
        Scenario scenario = ScenarioReader.ReadFile(path, sensor is null ? null : SensorReader.ReadFile(sensor));
        scenario = durationS is double length ? Lasting(scenario, length) : scenario;
        scenario = subjectSeed is long person ? scenario.WithSubject((ulong)person) : scenario;
        scenario = settings is null ? scenario : scenario.WithSettings(SettingsFile.Read(settings, scenario.Values));
        return seed is long own ? scenario.WithSeed((ulong)own) : scenario;
    }

    // The length is in no file: whoever gave it is told what of the file lies behind it.
    private static Scenario Lasting(Scenario scenario, double lengthS)
    {
        try
        {
            return scenario.With([new KeyValue(ScenarioKeys.DurationS, lengthS)]);
        }
        catch (ScenarioException e) when (lengthS < scenario.DurationS)
        {
            ScenarioMistake first = e.Mistakes[0];
            string what = first.Message.Split(';')[0];
            string more = e.Mistakes.Count == 1 ? "" : FormattableString.Invariant($", and {Plural.Of(e.Mistakes.Count - 1, "more place")} like it");
            throw new UsageException(FormattableString.Invariant(
                $"--duration-s {lengthS:R} is too short for {first with { Message = what }}{more}; give a longer one, or leave it out for the scenario's own {scenario.DurationS:R} s"));
        }
    }
}
