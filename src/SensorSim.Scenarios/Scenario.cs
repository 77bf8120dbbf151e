// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios;

/// <summary>
/// A scenario: values of knobs and their courses, length, seed, person, requirements. With the seeds, the files it names and the generator
/// version it is the identity of its stream.
/// </summary>
public sealed class Scenario
{
    /// <summary>Version of the generator; a change that alters any code or truth raises it.</summary>
    public const int GeneratorVersion = 2;

    private readonly ScenarioDraft _draft;

    internal Scenario(ScenarioDraft draft, KeyValues values, DrawnSubject? subject, ulong seed)
    {
        _draft = draft;
        Values = values;
        Subject = subject;
        Seed = seed;
    }

    /// <summary>Values of the knobs.</summary>
    public KeyValues Values { get; }

    /// <summary>The person that was drawn; null when nobody was.</summary>
    public DrawnSubject? Subject { get; }

    /// <summary>Files that the scenario names and its sensor, with their hashes.</summary>
    public IReadOnlyList<ReferencedFile> ReferencedFiles =>
        _draft.Sensor is SensorFile sensor ? [.. _draft.ReferencedFiles, sensor.Reference] : _draft.ReferencedFiles;

    /// <summary>Title of the sensor, or the name of its file; empty when the scenario names neither.</summary>
    public string SensorTitle => Values.IsSet(SensorKeys.Title) ? Values[SensorKeys.Title]
        : _draft.Sensor is SensorFile sensor ? Path.GetFileNameWithoutExtension(sensor.FullPath) : "";

    /// <summary>Number of <c>[[change]]</c> tables.</summary>
    public int ChangeCount => _draft.TimeLine.ChangeCount;

    /// <summary>Number of <c>[[activity]]</c> tables.</summary>
    public int ActivityCount => _draft.TimeLine.ActivityCount;

    /// <summary>The text it was read from.</summary>
    public string Text => _draft.Text;

    /// <summary>The file it was read from, as the user named it.</summary>
    public string File => _draft.File;

    /// <summary>Seed of every random draw but those of the person.</summary>
    public ulong Seed { get; }

    /// <summary>Title; the file's name when it has none.</summary>
    public string Title => Values.IsSet(ScenarioKeys.Title) ? Values[ScenarioKeys.Title] : Path.GetFileNameWithoutExtension(File);

    /// <summary>Length [s].</summary>
    public double DurationS => Values[ScenarioKeys.DurationS];

    /// <summary>The requirements that it sets, with their limits.</summary>
    public IEnumerable<(RequirementDefinition Definition, double Limit)> Requirements =>
        RequirementKeys.All.Where(r => Values.IsSet(r.Key)).Select(r => (r, Values[r.Key]));

    /// <summary>The same scenario with another seed.</summary>
    /// <param name="seed">The seed.</param>
    public Scenario WithSeed(ulong seed) => new(_draft, Values, Subject, seed);

    /// <summary>The same scenario with a drawn person: each key that its file does not set gets the person's value.</summary>
    /// <param name="subjectSeed">Seed of the person; instead of the scenario's own, if it has one.</param>
    /// <exception cref="ScenarioException">The person and the scenario's own values contradict each other.</exception>
    public Scenario WithSubject(ulong subjectSeed)
    {
        var mistakes = new MistakeList(File);
        (KeyValues values, DrawnSubject? subject) = _draft.Assemble(subjectSeed, mistakes);
        mistakes.ThrowIfAny();
        return new Scenario(_draft, values, subject, Seed);
    }

    /// <summary>Assembles its stream.</summary>
    public SensorStream CreateStream() => new(Values, Seed, DurationS);
}
