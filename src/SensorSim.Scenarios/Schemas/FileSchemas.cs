// SPDX-License-Identifier: MIT
using System.Text.Json.Nodes;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Schemas;

/// <summary>Every kind of TOML file that is read here, with its schema.</summary>
public static class FileSchemas
{
    private const int FewestOfAList = 2;
    private const int MostOfAList = 16;

    /// <summary>A scenario.</summary>
    public static FileSchema Scenario { get; } = new(
        "scenario",
        "What signals to make: a body, a sensor, what disturbs it, and what happens over time.",
        [.. SchemaSection.Of(AllKeys.List(), mayBeEmpty: true), .. TimeLineTables.All.Select(SchemaSection.Of)]);

    /// <summary>A sensor.</summary>
    public static FileSchema Sensor { get; } = new(
        "sensor",
        "A sensor, for scenarios that name it: values for what the sensor is, neither body nor room.",
        SchemaSection.Of(SensorKeys.OfAFile, mayBeEmpty: true));

    /// <summary>A study.</summary>
    public static FileSchema Study { get; } = new("study", "Which scenario is made how often, what is varied, which detectors are scored and what is required.", OfAStudy(), StudySectionKeys.Section);

    /// <summary>A vector plan.</summary>
    public static FileSchema Plan { get; } = new("plan", "What a set of known-answer vectors is made from: its requirements and its cases.", OfAPlan(), PlanSetKeys.Section);

    /// <summary>A calibration.</summary>
    public static FileSchema Calibration { get; } = new("calibration", "What a detector is told of one person: cuff measurements, the oxygen table, the trend.", OfACalibration());

    /// <summary>Every kind of file.</summary>
    public static IReadOnlyList<FileSchema> All { get; } = [Scenario, Sensor, Study, Plan, Calibration];

    private static IEnumerable<SchemaSection> OfAStudy()
    {
        IEnumerable<KeyDefinition> keys = StudyKeys.All.Concat(RequirementKeys.All.Select(r => r.Key));
        foreach (SchemaSection section in SchemaSection.Of(keys, mayBeEmpty: false))
        {
            yield return section with
            {
                IsRepeated = StudyKeys.Repeated.Contains(section.Name, StringComparer.Ordinal),
                Required = section.Name switch
                {
                    StudySectionKeys.Section => [StudySectionKeys.Scenario.Key],
                    VaryKeys.Section => [VaryKeys.Key.Key],
                    _ => [],
                },
            };
        }
    }

    private static IEnumerable<SchemaSection> OfAPlan()
    {
        foreach (SchemaSection section in SchemaSection.Of(PlanKeys.All, mayBeEmpty: false))
        {
            IReadOnlyList<KeyDefinition> required = section.Name switch
            {
                PlanSetKeys.Section => [PlanSetKeys.Title],
                PlanRequirementKeys.Section => PlanRequirementKeys.Required,
                PlanCaseKeys.Section => PlanCaseKeys.Required,
                PlanHeaderKeys.Section => [PlanHeaderKeys.Channels],
                _ => PlanDeviationKeys.All,
            };
            yield return section with
            {
                Values = [.. section.Values.Select(v => section.Name == PlanHeaderKeys.Section && v.Key == PlanHeaderKeys.Bits.Key ? (v.Key, EndsOnly(v.Schema)) : v)],
                IsRepeated = section.Name != PlanSetKeys.Section,
                Required = [.. required.Select(k => k.Key)],
            };
        }
    }

    // A code of a header has the one width or the other, nothing between.
    private static JsonObject EndsOnly(JsonObject number)
    {
        number["enum"] = new JsonArray(number["minimum"]!.DeepClone(), number["maximum"]!.DeepClone());
        return number;
    }

    private static IEnumerable<SchemaSection> OfACalibration()
    {
        NumberKey[] lists = [CalibrationKeys.Ratio, CalibrationKeys.SaturationPercent];
        SchemaSection oxygen = new(CalibrationKeys.Ratio.Section, [.. lists.Select(k => (k.Key, ValueSchema.List(k, FewestOfAList, MostOfAList)))])
        {
            Required = [.. lists.Select(k => k.Key)],
        };
        foreach (SchemaSection section in SchemaSection.Of(CalibrationKeys.All, mayBeEmpty: true))
        {
            yield return section.Name == oxygen.Name ? oxygen
                : section.Name != CalibrationKeys.Cuff ? section
                : section with
                {
                    IsRepeated = true,
                    Most = 2,
                    Required = [CalibrationKeys.ArrivalMs.Key, CalibrationKeys.SystolicMmhg.Key, CalibrationKeys.DiastolicMmhg.Key],
                };
        }
    }
}
