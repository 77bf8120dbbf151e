// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Reads the cases of a vector plan, with the files that they name.</summary>
internal static class PlanCaseReader
{
    /// <summary>The cases, as far as they are sound.</summary>
    /// <param name="tables">Their tables.</param>
    /// <param name="requirements">The requirements of the plan.</param>
    /// <param name="folder">Folder of the plan.</param>
    /// <param name="mistakes">Takes mistakes of the files that a case names.</param>
    public static IReadOnlyList<PlannedCase> Read(IReadOnlyList<CaseTables> tables, IReadOnlyList<PlannedRequirement> requirements, string folder, MistakeList mistakes)
    {
        var found = new List<PlannedCase>();
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (CaseTables table in tables)
        {
            if (One(table, requirements, folder, mistakes) is not PlannedCase planned)
            {
                continue;
            }

            int line = table.Own.PlaceOf(PlanCaseKeys.Name)!.Value.Start.Line + 1;
            if (!lines.TryAdd(planned.Name, line))
            {
                table.Own.Add(PlanCaseKeys.Name, $"case.name = \"{planned.Name}\" stands twice, first in line {lines[planned.Name]}; each case has a name of its own");
            }

            found.Add(planned);
        }

        return found;
    }

    private static PlannedCase? One(CaseTables tables, IReadOnlyList<PlannedRequirement> requirements, string folder, MistakeList mistakes)
    {
        KeyTable table = tables.Own;
        foreach (KeyDefinition key in PlanCaseKeys.Required)
        {
            table.Require(key);
        }

        string name = PlanNames.Folder(table, PlanCaseKeys.Name);
        string about = table.Text(PlanCaseKeys.About);
        string disturbance = table.Text(PlanCaseKeys.Disturbance);
        var level = CaseLevels.Of(table.Word(PlanCaseKeys.Level));
        IReadOnlyList<PlannedRequirement> own = CaseListReader.Requirements(table, requirements);
        IReadOnlyList<StimulusForm> stimulus = CaseListReader.Stimulus(table);
        double? seed = table.Given(PlanCaseKeys.Seed);
        double? duration = table.Given(PlanCaseKeys.DurationS);
        if (table.IsSound && level == CaseLevel.MustRefuse && !own.Any(r => r.Rule is RequirementRule.Withheld or RequirementRule.Shown))
        {
            table.Add(PlanCaseKeys.Level, "case.level = \"must_refuse\" needs a requirement with rule = \"withheld\" or rule = \"shown\"; without one nothing must be refused");
        }

        string scenarioPath = table.Text(PlanCaseKeys.Scenario);
        string calibrationPath = table.Text(PlanCaseKeys.Calibration);
        CalibrationFile? calibration = calibrationPath.Length == 0 ? null
            : Named(table, PlanCaseKeys.Calibration, folder, calibrationPath, CalibrationReader.ReadFile, mistakes);
        Scenario? scenario = scenarioPath.Length == 0 ? null
            : Named(table, PlanCaseKeys.Scenario, folder, scenarioPath, p => ReadScenario(p, seed, duration), mistakes);
        IReadOnlyList<PlannedHeader> headers = CaseListReader.Headers(tables.Headers, name);
        IReadOnlyList<PlannedDeviation> deviations = CaseListReader.Deviations(tables.Deviations, own, name);
        IReadOnlyList<WithheldStretch> withhold = CaseListReader.Withhold(table, scenario?.DurationS ?? PlanCaseKeys.DurationS.Maximum);
        return !table.IsSound || scenario is null ? null : new PlannedCase
        {
            Name = name,
            About = about,
            Scenario = scenario,
            ScenarioPath = scenarioPath,
            Calibration = calibration,
            CalibrationPath = calibrationPath,
            Disturbance = disturbance.Length > 0 ? disturbance : "none",
            Level = level,
            Requirements = own,
            Withhold = withhold,
            Stimulus = stimulus,
            Headers = headers,
            Deviations = deviations,
        };
    }

    private static Scenario ReadScenario(string path, double? seed, double? durationS)
    {
        Scenario scenario = ScenarioReader.ReadFile(path);
        scenario = durationS is double own ? scenario.With([new KeyValue(ScenarioKeys.DurationS, own)]) : scenario;
        return seed is double number ? scenario.WithSeed((ulong)number) : scenario;
    }

    // A missing file is the plan's mistake; a mistake inside a file is told at its place there.
    private static T? Named<T>(KeyTable table, TextKey key, string folder, string path, Func<string, T> read, MistakeList mistakes)
        where T : class
    {
        string full = Path.Combine(folder, path);
        if (!File.Exists(full))
        {
            table.Add(key, $"{key.Name} = \"{path}\" is no file; give a path from the plan's folder on");
            return null;
        }

        try
        {
            return read(full);
        }
        catch (ScenarioException e)
        {
            foreach (ScenarioMistake mistake in e.Mistakes)
            {
                mistakes.AddIn(mistake.File, mistake.Line, mistake.Column, mistake.Message);
            }

            return null;
        }
    }
}
