// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Beats;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Reads a scenario from TOML and reports every mistake with its place.</summary>
public static class ScenarioReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static Scenario ReadFile(string path) => ReadText(ScenarioFile.ReadText(path), path);

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages and for files that it names.</param>
    /// <exception cref="ScenarioException">The text holds mistakes.</exception>
    public static Scenario ReadText(string text, string file)
    {
        var mistakes = new MistakeList(file);
        DocumentSyntax document = Parse(text, file, mistakes);
        var draft = new ScenarioDraft { Text = text, File = file };
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, OutsideOfSections(TomlNames.Text(pair.Key)));
        }

        var sections = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        var timeLine = new List<(TimeLineTable Table, TableSyntaxBase Syntax)>();
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (TimeLineTables.Find(TomlNames.Text(table.Name)) is TimeLineTable known)
            {
                AddTimeLine(known, table, timeLine, mistakes);
            }
            else
            {
                ReadTable(table, draft, sections, mistakes);
            }
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
        ulong? subjectSeed = draft.Given.IsSet(SubjectDrawKeys.Seed) ? (ulong)draft.Given[SubjectDrawKeys.Seed] : null;
        (KeyValues values, DrawnSubject? subject) = draft.Assemble(subjectSeed, mistakes);
        mistakes.ThrowIfAny();
        return new Scenario(draft, values, subject, (ulong)values[ScenarioKeys.Seed]);
    }

    // The parser goes on after an error and may find others that only follow from it: one a line is told.
    private static DocumentSyntax Parse(string text, string file, MistakeList mistakes)
    {
        const string Right = "a line is [section], key = value or # comment";
        try
        {
            // What stands twice is found below, in words that name the first place.
            DocumentSyntax document = SyntaxParser.Parse(text, file, validate: false);
            foreach (DiagnosticMessage message in document.Diagnostics.DistinctBy(m => m.Span.Start.Line))
            {
                mistakes.Add(message.Span, $"not TOML: {TomlNames.FirstLine(message.Message)}; {Right}");
            }

            mistakes.ThrowIfAny();
            return document;
        }
        catch (TomlException e)
        {
            // Without a place only when lists or tables are nested without end: there the parser gives up as a whole.
            string what = e.Span is null ? "lists or tables are nested too deep" : TomlNames.FirstLine(e.Message);
            mistakes.Add(e.Span?.Start.Line ?? -1, e.Span?.Start.Column ?? -1, $"not TOML for a scenario: {what}; {Right}");
            throw mistakes.ToException();
        }
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

    private static void ReadTable(TableSyntaxBase table, ScenarioDraft draft, Dictionary<string, SourceSpan> sections, MistakeList mistakes)
    {
        string section = TomlNames.Text(table.Name);
        if (!AllKeys.Sections().Contains(section, StringComparer.Ordinal))
        {
            mistakes.Add(table.Name!.Span, $"[{TomlNames.Shown(section)}] is no section; the nearest is {NearestTable(section)}");
            return;
        }

        if (table is TableArraySyntax)
        {
            mistakes.Add(table.Span, $"[[{section}]] is a list of sections; a section stands once: [{section}]");
            return;
        }

        if (!sections.TryAdd(section, table.Name!.Span))
        {
            mistakes.Add(table.Name.Span, $"[{section}] stands twice, first in line {Line(sections[section])}; put its keys there");
            return;
        }

        foreach (KeyValueSyntax pair in table.Items)
        {
            string name = $"{section}.{TomlNames.Text(pair.Key)}";
            if (AllKeys.Find(name) is not KeyDefinition key)
            {
                mistakes.Add(pair.Key!.Span, $"{TomlNames.Shown(name)} is no key; the nearest is {AllKeys.Nearest(name).Name}");
            }
            else if (!draft.Places.TryAdd(name, pair.Value!.Span))
            {
                mistakes.Add(pair.Key!.Span, $"{name} stands twice, first in line {Line(draft.Places[name])}; keep one");
            }
            else
            {
                ValueReader.Read(key, pair.Value!, draft.Given, mistakes);
            }
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

    private static string Line(SourceSpan span) => (span.Start.Line + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);
}
