// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Detectors;

namespace SensorSim.Studies.Plans;

/// <summary>
/// What fixes the rows of a study, as one number: generator version, scenario and the files it names, points, seeds, persons, detectors with
/// their constants, requirements. Title, labels and paths are not in it, nor how failure points are fitted.
/// </summary>
public static class PlanIdentity
{
    /// <summary>The identity, 64 lower-case hexadecimal digits; the same on every machine.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="factories">One for each detector of the study, in their order.</param>
    public static string Of(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Canonical(plan, factories))));

    /// <summary>The text whose hash it is: one item a line, its name, length and content, so that no two studies have the same.</summary>
    internal static string Canonical(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(factories);
        if (factories.Count != plan.Detectors.Count)
        {
            throw new ArgumentException("One factory for each detector.", nameof(factories));
        }

        var text = new StringBuilder();
        void Add(string name, string content) => text.Append(CultureInfo.InvariantCulture, $"{name} {content.Length} {content}\n");
        Add("generator", Number(Scenario.GeneratorVersion));
        Add("scenario", plan.Scenario.Text.ReplaceLineEndings("\n"));
        foreach (KeyValue own in plan.Scenario.Own)
        {
            Add(own.Key.Name, own.Text);
        }

        foreach (ReferencedFile file in plan.Scenario.ReferencedFiles)
        {
            Add("file", file.Sha256);
        }

        // A person may have been set after the scenario was read; its text does not tell then.
        Add("person", plan.Scenario.Subject is { } subject ? Number(subject.Seed) : "");
        foreach (Factor factor in plan.Factors)
        {
            Add("factor", factor.Key.Name);
        }

        foreach (StudyPoint point in plan.Points)
        {
            foreach (object value in point.Values)
            {
                Add("value", value is double number ? Number(number) : (string)value);
            }
        }

        AddSeeds(Add, "seed", plan.Seeds);
        AddSeeds(Add, "subject", plan.SubjectSeeds);
        AddSeeds(Add, "tuning", plan.Tuning?.Seeds ?? []);
        for (int d = 0; d < factories.Count; d++)
        {
            AddDetector(Add, plan.Detectors[d], factories[d]);
        }

        foreach ((RequirementDefinition definition, double limit) in plan.Requirements)
        {
            Add(definition.Key.Name, Number(limit));
        }

        return text.ToString();
    }

    private static void AddSeeds(Action<string, string> add, string name, IReadOnlyList<ulong> seeds)
    {
        foreach (ulong seed in seeds)
        {
            add(name, Number(seed));
        }
    }

    private static void AddDetector(Action<string, string> add, DetectorChoice choice, IDetectorFactory factory)
    {
        add("detector", factory.Identity);
        add("hang", Number(choice.HangS));
        add("control", choice.Control);
        add("latency", choice.IsLoopClosed ? Number(choice.LatencyMs) : "");
        add("calibration", choice.Calibration is DetectorCalibration calibration ? JsonSerializer.Serialize(calibration) : "");
        foreach ((string name, double value) in choice.Constants.OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            add(name, Number(value));
        }
    }

    private static string Number(IFormattable value) => value is double number
        ? number.ToString("R", CultureInfo.InvariantCulture)
        : value.ToString(null, CultureInfo.InvariantCulture);
}
