// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>A study as it stands in its file: sound in itself, the files that it names not yet opened.</summary>
public sealed class StudyFile
{
    private readonly IReadOnlyDictionary<string, FilePlace> _places;

    internal StudyFile(IReadOnlyDictionary<string, FilePlace> places) => _places = places;

    /// <summary>The file, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>Its text.</summary>
    public required string Text { get; init; }

    /// <summary>Title; the file's name when it has none.</summary>
    public required string Title { get; init; }

    /// <summary>Path of the scenario, as the file says it.</summary>
    public required string ScenarioPath { get; init; }

    /// <summary>Length of the runs [s]; null: the scenario's.</summary>
    public double? DurationS { get; init; }

    /// <summary>Seeds, at least one, all different.</summary>
    public required IReadOnlyList<ulong> Seeds { get; init; }

    /// <summary>Seeds of the persons, all different; empty: nobody is drawn by the study.</summary>
    public required IReadOnlyList<ulong> SubjectSeeds { get; init; }

    /// <summary>Word of the arrangement.</summary>
    public required string Arrangement { get; init; }

    /// <summary>Points of a Latin hypercube; else 0.</summary>
    public int PointCount { get; init; }

    /// <summary>Seed of a Latin hypercube.</summary>
    public ulong ArrangementSeed { get; init; }

    /// <summary>What is varied, in the order of the file.</summary>
    public required IReadOnlyList<VariedKey> Varied { get; init; }

    /// <summary>Detectors, at least one, labels all different.</summary>
    public required IReadOnlyList<StudyDetector> Detectors { get; init; }

    /// <summary>Requirements in the order of the file; empty: those of the scenario.</summary>
    public required IReadOnlyList<(RequirementDefinition Definition, double Limit)> Requirements { get; init; }

    /// <summary>How failure points are found; null: as the defaults say.</summary>
    public StudyFailurePoint? FailurePoint { get; init; }

    /// <summary>Seeds on which constants of the detector are chosen; none: nothing is tuned.</summary>
    public required IReadOnlyList<ulong> TuningSeeds { get; init; }

    /// <summary>Where a key's value stands; where its section stands when it is not given.</summary>
    /// <param name="key">A key of a study, or a requirement.</param>
    /// <param name="index">Which of several sections of the same name, from 0.</param>
    public FilePlace PlaceOf(KeyDefinition key, int index = 0)
    {
        ArgumentNullException.ThrowIfNull(key);
        return _places.TryGetValue(PlaceName(key.Name, index), out FilePlace place) ? place
            : _places.GetValueOrDefault(PlaceName(key.Section, index));
    }

    /// <summary>Where a constant of a detector stands; where the detector stands when the detector does not set it.</summary>
    /// <param name="constant">Full name (<c>detector.…</c>).</param>
    /// <param name="detector">Which detector, from 0.</param>
    public FilePlace PlaceOfConstant(string constant, int detector) =>
        _places.TryGetValue(PlaceName(ConstantPlace(constant), detector), out FilePlace place) ? place
            : _places.GetValueOrDefault(PlaceName(DetectorKeys.Section, detector));

    /// <summary>A mistake at a place.</summary>
    /// <param name="place">The place.</param>
    /// <param name="message">What is wrong and what would be right.</param>
    public ScenarioMistake Mistake(FilePlace place, string message) =>
        new(File, place.Line, place.Column, TomlNames.WithoutControls(message));

    internal static string PlaceName(string name, int index) => FormattableString.Invariant($"{name}#{index}");

    // Apart from the keys of the section, which a constant may be named like.
    internal static string ConstantPlace(string constant) => $"constant {constant}";
}
