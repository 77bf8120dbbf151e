// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Keys of <c>[[case]]</c>.</summary>
public static class PlanCaseKeys
{
    internal const string Section = "case";

    /// <summary>Name.</summary>
    public static readonly TextKey Name = PlanSetKeys.Line("case.name", "Name of the case and of its folder: lower-case letters, digits, hyphens; must be given.", 60);

    /// <summary>In a line.</summary>
    public static readonly TextKey About = PlanSetKeys.Line("case.about", "What the case is, in a line.");

    /// <summary>Scenario.</summary>
    public static readonly TextKey Scenario = PlanSetKeys.Line("case.scenario", "Path of the scenario, from the plan's folder on; must be given.", 1000);

    /// <summary>Seed.</summary>
    public static readonly NumberKey Seed = StudySectionKeys.Seed("case.seed", "Seed of every random draw; the scenario's unless given.") with { HasDefault = false };

    /// <summary>Length.</summary>
    public static readonly NumberKey DurationS = new()
    {
        Name = "case.duration_s",
        Unit = "s",
        Meaning = "Length of the case; that of the scenario unless given.",
        HasDefault = false,
        Source = PlanSetKeys.Own,
        Minimum = ScenarioKeys.DurationS.Minimum,
        Maximum = ScenarioKeys.DurationS.Maximum,
        Default = ScenarioKeys.DurationS.Default,
    };

    /// <summary>Calibration.</summary>
    public static readonly TextKey Calibration = PlanSetKeys.Line("case.calibration", "Path of a calibration that the detector is told, from the plan's folder on.", 1000);

    /// <summary>Disturbance.</summary>
    public static readonly TextKey Disturbance = PlanSetKeys.Line("case.disturbance", "What disturbs the case, in a word for the index; none unless given.", 40);

    /// <summary>Level.</summary>
    public static readonly ChoiceKey Level = new()
    {
        Name = "case.level",
        Meaning = "How hard the case is: a sound detector has room to spare (pass), just meets its requirements (near_limit), or gives nothing for a part of it (must_refuse); must be given.",
        Source = PlanSetKeys.Own,
        HasDefault = false,
        Choices = CaseLevels.Words,
        Default = CaseLevels.Words[0],
    };

    /// <summary>Requirements.</summary>
    public static readonly FreeKey Requirements = Free("requirements", "Names of the requirements that hold for the case; must be given.", "a list of requirement ids, all different; [] when the case asks nothing", new(ValueForm.Texts) { IsUnlike = true });

    /// <summary>Withheld.</summary>
    public static readonly FreeKey WithholdS = Free(
        "withhold_s", "Stretches [s] in which nothing may be given, beside those that truth and acquisition know; in order of time, apart from each other.", "a list of pairs, for example [[5, 12]]", new(ValueForm.Pairs));

    /// <summary>Forms.</summary>
    public static readonly FreeKey Stimulus = Free("stimulus", "Forms in which the samples are shipped; both unless given; [] ships their hashes alone.", "a list of \"bdf\" and \"raw\"", new(ValueForm.Texts) { Choices = ["bdf", "raw"], IsUnlike = true });

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
        [Name, About, Scenario, Seed, DurationS, Calibration, Disturbance, Level, Requirements, WithholdS, Stimulus];

    /// <summary>Keys that every case must have.</summary>
    internal static IReadOnlyList<KeyDefinition> Required { get; } = [Name, Scenario, Level, Requirements];

    internal static FreeKey Free(string key, string meaning, string allowed, ValueShape shape) => new()
    {
        Name = $"{Section}.{key}",
        Meaning = meaning,
        HasDefault = false,
        Source = PlanSetKeys.Own,
        Allowed = allowed,
        Shape = shape,
    };
}
