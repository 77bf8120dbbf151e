// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Beats;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Reads a scenario from TOML and reports every mistake with its place.</summary>
public static class ScenarioReader
{
    private const string StudySection = "study";

    /// <summary>Reads a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="sensor">Sensor instead of the one that the scenario names.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static Scenario ReadFile(string path, SensorFile? sensor = null) => ReadText(ScenarioFile.ReadText(path), path, sensor);

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages and for files that it names.</param>
    /// <param name="sensor">Sensor instead of the one that the scenario names.</param>
    /// <exception cref="ScenarioException">The text holds mistakes.</exception>
    public static Scenario ReadText(string text, string file, SensorFile? sensor = null) => ReadText(text, file, sensor, []);

    /// <summary>Reads a text, with values that stand in place of its own.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages and for files that it names.</param>
    /// <param name="sensor">Sensor instead of the one that the scenario names.</param>
    /// <param name="own">Values in place of the text's, each within the range of its key. Where the time line changes a key, its value at the start.</param>
    /// <exception cref="ScenarioException">The text holds mistakes, or does so together with the values.</exception>
    public static Scenario ReadText(string text, string file, SensorFile? sensor, IReadOnlyList<KeyValue> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        var mistakes = new MistakeList(file);
        DocumentSyntax document = TomlText.Parse(text, file, mistakes);
        var draft = new ScenarioDraft { Text = text, File = file, Own = own };
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, OutsideOfSections(TomlNames.Text(pair.Key)));
        }

        var sections = new SectionReader(
            AllKeys.Sections(),
            name => name == StudySection
                ? "this is a study, not a scenario: it goes to sensorsim sweep"
                : $"[{TomlNames.Shown(name)}] is no section; the nearest is {NearestTable(name)}",
            AllKeys.Nearest,
            draft.Given,
            draft.Places,
            mistakes);
        var timeLine = new List<(TimeLineTable Table, TableSyntaxBase Syntax)>();
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (TimeLineTables.Find(TomlNames.Text(table.Name)) is TimeLineTable known)
            {
                AddTimeLine(known, table, timeLine, mistakes);
            }
            else
            {
                sections.Read(table);
            }
        }

        foreach (KeyValue value in own)
        {
            value.SetIn(draft.Given);
        }

        // What the tables say in which order does not matter, so the time line waits for the length of the scenario.
        bool isLengthKnown = draft.Given.IsSet(ScenarioKeys.DurationS) || !draft.Places.ContainsKey(ScenarioKeys.DurationS.Name);
        double end = isLengthKnown ? draft.Given[ScenarioKeys.DurationS] : double.PositiveInfinity;
        foreach ((TimeLineTable table, TableSyntaxBase syntax) in timeLine)
        {
            draft.TimeLine.Read(table, syntax, end, mistakes);
        }

        BeatLists.Attach(draft, mistakes);
        Recordings.Recordings.Attach(draft, mistakes);
        draft.Sensor = sensor ?? (draft.Given.IsSet(ScenarioKeys.Sensor) ? SensorReader.ReadNamed(draft, mistakes) : null);
        if (draft.Sensor is null && draft.Given.IsSet(ScenarioKeys.Sensor))
        {
            // Without its sensor the scenario would seem to contradict itself.
            throw mistakes.ToException();
        }

        ulong? subjectSeed = draft.Given.IsSet(SubjectDrawKeys.Seed) ? (ulong)draft.Given[SubjectDrawKeys.Seed] : null;
        (KeyValues values, DrawnSubject? subject) = draft.Assemble(subjectSeed, mistakes);
        mistakes.ThrowIfAny();
        return new Scenario(draft, values, subject, (ulong)values[ScenarioKeys.Seed]);
    }

    private static void AddTimeLine(
        TimeLineTable table, TableSyntaxBase syntax, List<(TimeLineTable Table, TableSyntaxBase Syntax)> timeLine, MistakeList mistakes)
    {
        if (syntax is TableArraySyntax)
        {
            timeLine.Add((table, syntax));
        }
        else
        {
            mistakes.Add(syntax.Name!.Span, $"[{table.Name}] may stand many times and has two brackets: [[{table.Name}]]");
        }
    }

    private static string NearestTable(string name)
    {
        string nearest = NearestName.Find(name, AllKeys.Sections().Concat(TimeLineTables.All.Select(t => t.Name)));
        return TimeLineTables.Find(nearest) is null ? $"[{nearest}]" : $"[[{nearest}]]";
    }

    private static string OutsideOfSections(string name)
    {
        if (TimeLineTables.Find(name) is not null)
        {
            return $"{name} is a table that may stand many times; write [[{name}]] on a line of its own and its fields below";
        }

        if (AllKeys.Sections().Contains(name, StringComparer.Ordinal))
        {
            return $"{name} is a section; write [{name}] on a line of its own and its keys below";
        }

        KeyDefinition nearest = AllKeys.Nearest(name);
        return $"{TomlNames.Shown(name)} stands outside of every section; the nearest key is {nearest.Key} below [{nearest.Section}]";
    }
}
