// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Checks;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>A scenario as it stands in its file, before a person is drawn and the time line is laid on that person.</summary>
internal sealed class ScenarioDraft
{
    /// <summary>What the file sets.</summary>
    public KeyValues Given { get; } = new();

    /// <summary>Places of the values.</summary>
    public Dictionary<string, SourceSpan> Places { get; } = new(StringComparer.Ordinal);

    /// <summary>The time line.</summary>
    public TimeLinePlan TimeLine { get; } = new();

    /// <summary>Files that it names.</summary>
    public List<ReferencedFile> ReferencedFiles { get; } = [];

    /// <summary>The sensor that it is made with; null: the keys' defaults.</summary>
    public SensorFile? Sensor { get; set; }

    /// <summary>Values that stand in place of the text's.</summary>
    public IReadOnlyList<KeyValue> Own { get; init; } = [];

    /// <summary>The text it was read from.</summary>
    public required string Text { get; init; }

    /// <summary>The file it was read from, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>Values and person for a seed of the person.</summary>
    /// <param name="subjectSeed">The seed; null: nobody is drawn.</param>
    /// <param name="mistakes">Takes contradictions.</param>
    public (KeyValues Values, DrawnSubject? Subject) Assemble(ulong? subjectSeed, MistakeList mistakes)
    {
        KeyValues values = Given.Copy();
        Sensor?.AddTo(values);
        DrawnSubject? subject = subjectSeed is ulong seed ? SubjectDraw.Draw(values, seed) : null;
        TimeLine.Apply(values, mistakes);
        ScenarioChecks.Check(values, (key, message) => Report(key, message, values, subject, mistakes));
        TimeLineChecks.Check(
            values, values[ScenarioKeys.DurationS], (at, keys, message) => mistakes.Add(TimeLine.PlaceBefore(at, keys), message));
        return (values, subject);
    }

    // A value that the file does not hold may come from the person: then the seed is what can be changed. Or from the time line.
    private void Report(KeyDefinition key, string message, KeyValues values, DrawnSubject? subject, MistakeList mistakes)
    {
        bool isDrawn = subject is not null && !Places.ContainsKey(key.Name) && subject.Values.Any(v => v.Key == key);
        string origin = isDrawn ? $"; {key.Name} is drawn by subject seed {subject!.Seed}, set it or draw somebody else" : "";
        if (!Places.ContainsKey(key.Name) && Sensor is not null && Sensor.Places.TryGetValue(key.Name, out SourceSpan inSensor))
        {
            mistakes.AddIn(Sensor.FullPath, inSensor.Start.Line + 1, inSensor.Start.Column + 1, message);
            return;
        }

        SourceSpan? place = isDrawn && Places.TryGetValue(SubjectDrawKeys.Seed.Name, out SourceSpan seed) ? seed
            : PlaceOf(key, values) ?? PlaceOfNamed(message, values);
        mistakes.Add(place, message + origin);
    }

    private SourceSpan? PlaceOf(KeyDefinition key, KeyValues values) => Places.TryGetValue(key.Name, out SourceSpan own) ? own
        : values.IsChanging(key) ? TimeLine.PlaceBefore(double.PositiveInfinity, [key])
        : null;

    // The file says nothing of the key at fault: it must say something of another one that the sentence names.
    private SourceSpan? PlaceOfNamed(string message, KeyValues values) => AllKeys.List()
        .Where(k => message.Contains(k.Name + " ", StringComparison.Ordinal))
        .Select(k => PlaceOf(k, values))
        .FirstOrDefault(p => p is not null);
}
