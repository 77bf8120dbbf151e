// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans.Arrangements;

namespace SensorSim.Studies.Plans;

/// <summary>Reads a study from TOML.</summary>
public static class PlanReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ScenarioException">The file, or one that it names, is missing, unreadable or holds mistakes.</exception>
    public static StudyPlan ReadFile(string path) => Read(StudyFileReader.ReadFile(path));

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages; files that it names are looked for from its folder on.</param>
    /// <exception cref="ScenarioException">The text, or a file that it names, holds mistakes.</exception>
    public static StudyPlan ReadText(string text, string file) => Read(StudyFileReader.ReadText(text, file));

    /// <summary>Holds the constants of a study against what its detectors have: names, ranges, whole numbers.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="factories">One for each detector of the study, in their order.</param>
    /// <returns>The study, its varied constants with unit, range and meaning that the detectors state; whole ones rounded.</returns>
    /// <exception cref="ScenarioException">A detector has no such constant, or none of such a value.</exception>
    public static StudyPlan CheckConstants(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories) => ConstantChecks.Check(plan, factories);

    private static StudyPlan Read(StudyFile file)
    {
        var mistakes = new List<ScenarioMistake>();
        Scenario scenario = ReadScenario(file);
        IReadOnlyList<DetectorChoice> detectors = DetectorReader.Read(file, mistakes);
        IReadOnlyList<(RequirementDefinition Definition, double Limit)> requirements =
            file.Requirements.Count > 0 ? file.Requirements : [.. scenario.Requirements];
        CheckRequirements(file, requirements.Count, mistakes);
        ThrowIfAny(mistakes);
        (IReadOnlyList<Factor> factors, IReadOnlyList<StudyPoint> points) = PointMaker.Make(file, file.Varied, scenario, detectors);
        var plan = new StudyPlan
        {
            Title = file.Title,
            File = file.File,
            Text = file.Text,
            Scenario = scenario,
            Factors = factors,
            Points = points,
            Seeds = file.Seeds,
            SubjectSeeds = file.SubjectSeeds,
            Detectors = detectors,
            Requirements = requirements,
            FailurePoint = Settings(file.FailurePoint),
            Tuning = file.TuningSeeds.Count == 0 ? null : new TuningSettings(file.TuningSeeds),
            Source = file,
        };
        PointChecks.Check(plan, file, mistakes);
        ThrowIfAny(mistakes);
        return plan;
    }

    private static Scenario ReadScenario(StudyFile file)
    {
        string path = Path.Combine(Path.GetDirectoryName(file.File) ?? "", file.ScenarioPath);
        if (!File.Exists(path))
        {
            throw new ScenarioException(
            [
                file.Mistake(
                    file.PlaceOf(StudySectionKeys.Scenario),
                    $"study.scenario = \"{file.ScenarioPath}\" is no file; give the path of a scenario (TOML), from the study's folder on"),
            ]);
        }

        Scenario scenario = ScenarioReader.ReadFile(path);
        if (file.DurationS is not double duration)
        {
            return scenario;
        }

        try
        {
            return scenario.With([new KeyValue(ScenarioKeys.DurationS, duration)]);
        }
        catch (ScenarioException e)
        {
            string why = $"study.duration_s = {duration.ToString("R", System.Globalization.CultureInfo.InvariantCulture)} does not go with the scenario: {PointChecks.OneLine(e)}";
            throw new ScenarioException([file.Mistake(file.PlaceOf(StudySectionKeys.DurationS), why)]);
        }
    }

    private static void CheckRequirements(StudyFile file, int count, List<ScenarioMistake> mistakes)
    {
        if (count > 0)
        {
            return;
        }

        const string Right = "add [requirements] with, for example, r_peak_sensitivity_min = 0.99";
        if (file.FailurePoint is not null)
        {
            mistakes.Add(file.Mistake(file.PlaceOf(FailurePointKeys.Of), $"[failure_point] needs a requirement that fails there; {Right}"));
        }

        if (file.TuningSeeds.Count > 0)
        {
            mistakes.Add(file.Mistake(file.PlaceOf(TuningKeys.FirstSeed), $"[tuning] needs a requirement, whose figure decides what is best; {Right}"));
        }
    }

    private static FailurePointSettings Settings(StudyFailurePoint? read) => read is null ? new FailurePointSettings() : new FailurePointSettings
    {
        PassFraction = read.PassFraction,
        Shape = read.Curve == FailurePointKeys.Curve.Default ? CurveShape.Logistic : CurveShape.Probit,
        Resamples = read.Resamples,
        IsAdaptive = read.IsAdaptive,
        Precision = read.Precision,
        MostRuns = read.MostRuns,
    };

    private static void ThrowIfAny(List<ScenarioMistake> mistakes)
    {
        if (mistakes.Count > 0)
        {
            throw new ScenarioException([.. mistakes.OrderBy(m => m.Line).ThenBy(m => m.Column)]);
        }
    }
}
