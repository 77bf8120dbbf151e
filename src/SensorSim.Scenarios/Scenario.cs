// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios;

/// <summary>
/// A scenario: values of knobs and their courses, length, seed, person, requirements. With the seeds, the files it names and the generator
/// version it is the identity of its stream.
/// </summary>
public sealed class Scenario
{
    /// <summary>Version of the generator; a change that alters any code or truth raises it.</summary>
    public const int GeneratorVersion = 6;

    private readonly ScenarioDraft _draft;
    private readonly SettingsFile? _settings;

    internal Scenario(ScenarioDraft draft, KeyValues values, DrawnSubject? subject, ulong seed, SettingsFile? settings = null)
    {
        _draft = draft;
        _settings = settings;
        Values = values;
        Subject = subject;
        Seed = seed;
    }

    /// <summary>Values of the knobs.</summary>
    public KeyValues Values { get; }

    /// <summary>What it was read as, for whoever writes it again.</summary>
    internal ScenarioDraft Draft => _draft;

    /// <summary>The file whose settings stand in place of its own; null when there is none.</summary>
    internal SettingsFile? SettingsInPlace => _settings;

    /// <summary>The person that was drawn; null when nobody was.</summary>
    public DrawnSubject? Subject { get; }

    /// <summary>Files that the scenario names, with their hashes; its sensor and the file of its settings among them.</summary>
    public IReadOnlyList<ReferencedFile> ReferencedFiles =>
    [
        .. _draft.ReferencedFiles,
        .. _draft.Sensor is SensorFile sensor ? [sensor.Reference] : Array.Empty<ReferencedFile>(),
        .. _settings is null ? Array.Empty<ReferencedFile>() : [_settings.Reference],
    ];

    /// <summary>Changes of the sensor's settings, in order of time: those of the scenario, or of the file that stands for them.</summary>
    public IReadOnlyList<SettingChange> Settings => _settings?.Changes ?? _draft.TimeLine.Settings.Changes;

    /// <summary>Title of the sensor, or the name of its file; empty when the scenario names neither.</summary>
    public string SensorTitle => Values.IsSet(SensorKeys.Title) ? Values[SensorKeys.Title]
        : _draft.Sensor is SensorFile file ? Path.GetFileNameWithoutExtension(file.FullPath) : "";

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

    /// <summary>Whether its own file, or whoever gave values in place of the file's, sets a key; not whether its sensor or person does.</summary>
    /// <param name="key">The key.</param>
    public bool Sets(KeyDefinition key) => _draft.Given.IsSet(key);

    /// <summary>The same scenario with another seed.</summary>
    /// <param name="seed">The seed.</param>
    public Scenario WithSeed(ulong seed) => new(_draft, Values, Subject, seed, _settings);

    /// <summary>The same scenario with other values of some keys; seed and settings file stay, and so does a person that was drawn.</summary>
    /// <param name="own">Values in place of the scenario's; later ones win.</param>
    /// <exception cref="ScenarioException">The values contradict the rest of the scenario.</exception>
    public Scenario With(IReadOnlyList<KeyValue> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        Scenario changed = ScenarioReader.ReadText(Text, File, _draft.Sensor, [.. _draft.Own, .. own]);
        changed = Subject is null ? changed : changed.WithSubject(Subject.Seed);
        return new Scenario(changed._draft, changed.Values, changed.Subject, Seed, _settings);
    }

    /// <summary>Values that stand in place of the text's, in the order in which they were given.</summary>
    public IReadOnlyList<KeyValue> Own => _draft.Own;

    /// <summary>The same scenario with the settings of a file in place of its own.</summary>
    /// <param name="settings">The file, read for this scenario.</param>
    public Scenario WithSettings(SettingsFile settings) => new(_draft, Values, Subject, Seed, settings);

    /// <summary>The same scenario with a drawn person: each key that its file does not set gets the person's value.</summary>
    /// <param name="subjectSeed">Seed of the person; instead of the scenario's own, if it has one.</param>
    /// <exception cref="ScenarioException">The person and the scenario's own values contradict each other.</exception>
    public Scenario WithSubject(ulong subjectSeed)
    {
        var mistakes = new MistakeList(File);
        (KeyValues values, DrawnSubject? subject) = _draft.Assemble(subjectSeed, mistakes);
        mistakes.ThrowIfAny();
        return new Scenario(_draft, values, subject, Seed, _settings);
    }

    /// <summary>Assembles its stream.</summary>
    public SensorStream CreateStream() => new(Values, Seed, DurationS, Settings);

    /// <summary>Assembles its stream, for rooms that need not know what it is made of.</summary>
    public IToldStream OpenStream() => CreateStream();
}
