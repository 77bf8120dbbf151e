// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Keys of <c>[study]</c>.</summary>
public static class StudySectionKeys
{
    internal const string Section = "study";
    internal const string Own = "Choice of this project.";
    internal const double LargestSeed = 9007199254740991;

    /// <summary>Title.</summary>
    public static readonly TextKey Title = new()
    {
        Name = "study.title",
        Meaning = "What the study asks, in a line; the name of the file unless given.",
        HasDefault = false,
        Source = Own,
    };

    /// <summary>Scenario.</summary>
    public static readonly TextKey Scenario = new()
    {
        Name = "study.scenario",
        Meaning = "Path of the scenario that every run begins with, from the study's folder on; must be given.",
        HasDefault = false,
        MaximumLength = 1000,
        Source = Own,
    };

    /// <summary>Length of the runs.</summary>
    public static readonly NumberKey DurationS = new()
    {
        Name = "study.duration_s",
        Unit = "s",
        Meaning = "Length of every run; that of the scenario unless given.",
        HasDefault = false,
        Source = Own,
        Minimum = ScenarioKeys.DurationS.Minimum,
        Maximum = ScenarioKeys.DurationS.Maximum,
        Default = ScenarioKeys.DurationS.Default,
    };

    /// <summary>First seed.</summary>
    public static readonly NumberKey FirstSeed = Seed("study.first_seed", "First of the seeds, which follow each other; every point is run with the same seeds.");

    /// <summary>Number of seeds.</summary>
    public static readonly NumberKey SeedCount = Count("study.seed_count", "Number of seeds; more make intervals narrower.", 1e6, 20);

    /// <summary>Seeds one by one.</summary>
    public static readonly FreeKey Seeds = List("study.seeds", "Seeds one by one, in place of first_seed and seed_count.");

    /// <summary>First person.</summary>
    public static readonly NumberKey FirstSubjectSeed = Seed("study.first_subject_seed", "Seed of the first person; those of the others follow. Acts with subject_count.");

    /// <summary>Number of persons.</summary>
    public static readonly NumberKey SubjectCount = Count(
        "study.subject_count", "Number of persons that are drawn; every seed is run with each of them. Not set: the scenario's own person, or nobody.", 1e5, 1) with
    {
        HasDefault = false,
    };

    /// <summary>Persons one by one.</summary>
    public static readonly FreeKey SubjectSeeds = List("study.subject_seeds", "Seeds of the persons one by one, in place of first_subject_seed and subject_count.");

    /// <summary>Arrangement of the points.</summary>
    public static readonly ChoiceKey Arrangement = new()
    {
        Name = "study.arrangement",
        Meaning = "Which combinations are run: all of them (grid), each key alone with the others as in the scenario (one_at_a_time), or points spread over all ranges (latin_hypercube).",
        Source = "Latin hypercube: McKay, Beckman, Conover 1979 (from memory).",
        Choices = [Grid, OneAtATime, LatinHypercube],
        Default = Grid,
    };

    /// <summary>Points of a Latin hypercube.</summary>
    public static readonly NumberKey PointCount = Count("study.point_count", "Latin hypercube: number of points, must be given; each range is divided into as many shares.", 1e5, 100) with
    {
        HasDefault = false,
        Minimum = 2,
    };

    /// <summary>Seed of a Latin hypercube.</summary>
    public static readonly NumberKey ArrangementSeed = Seed("study.arrangement_seed", "Latin hypercube: seed of the arrangement; another seed gives other points.");

    internal const string Grid = "grid";
    internal const string OneAtATime = "one_at_a_time";
    internal const string LatinHypercube = "latin_hypercube";

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        Title, Scenario, DurationS, FirstSeed, SeedCount, Seeds, FirstSubjectSeed, SubjectCount, SubjectSeeds, Arrangement, PointCount, ArrangementSeed,
    ];

    internal static NumberKey Seed(string name, string meaning) => new()
    {
        Name = name,
        Meaning = meaning,
        Source = Own,
        IsWhole = true,
        Minimum = 0,
        Maximum = LargestSeed,
        Default = 1,
    };

    internal static NumberKey Count(string name, string meaning, double most, double byDefault) => new()
    {
        Name = name,
        Meaning = meaning,
        Source = Own,
        IsWhole = true,
        Minimum = 1,
        Maximum = most,
        Default = byDefault,
    };

    internal static FreeKey List(string name, string meaning) => new()
    {
        Name = name,
        Meaning = meaning,
        HasDefault = false,
        Source = Own,
        Allowed = "a list of whole numbers, 0 to 9007199254740991, all different",
        Shape = new(ValueForm.WholeNumbers) { Minimum = 0, Maximum = LargestSeed, LeastItems = 1, IsUnlike = true },
    };
}
