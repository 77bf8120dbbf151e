// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Checks;
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
    /// <param name="file">Name of its file, for messages.</param>
    /// <exception cref="ScenarioException">The text holds mistakes.</exception>
    public static Scenario ReadText(string text, string file)
    {
        var mistakes = new MistakeList(file);
        DocumentSyntax document = Parse(text, file, mistakes);
        var values = new KeyValues();
        var places = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, OutsideOfSections(TomlNames.Text(pair.Key)));
        }

        var sections = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        foreach (TableSyntaxBase table in document.Tables)
        {
            ReadTable(table, values, sections, places, mistakes);
        }

        ScenarioChecks.Check(values, (key, message) => mistakes.Add(places.TryGetValue(key.Name, out SourceSpan span) ? span : null, message));
        mistakes.ThrowIfAny();
        return new Scenario(values, text, file);
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

    private static void ReadTable(
        TableSyntaxBase table,
        KeyValues values,
        Dictionary<string, SourceSpan> sections,
        Dictionary<string, SourceSpan> places,
        MistakeList mistakes)
    {
        string section = TomlNames.Text(table.Name);
        if (!AllKeys.Sections().Contains(section, StringComparer.Ordinal))
        {
            mistakes.Add(table.Name!.Span, $"[{TomlNames.Shown(section)}] is no section; the nearest is [{NearestName.Find(section, AllKeys.Sections())}]");
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
            else if (!places.TryAdd(name, pair.Value!.Span))
            {
                mistakes.Add(pair.Key!.Span, $"{name} stands twice, first in line {Line(places[name])}; keep one");
            }
            else
            {
                ValueReader.Read(key, pair.Value!, values, mistakes);
            }
        }
    }

    private static string OutsideOfSections(string name)
    {
        if (AllKeys.Sections().Contains(name, StringComparer.Ordinal))
        {
            return $"{name} is a section; write [{name}] on a line of its own and its keys below";
        }

        KeyDefinition nearest = AllKeys.Nearest(name);
        return $"{TomlNames.Shown(name)} stands outside of every section; the nearest key is {nearest.Key} below [{nearest.Section}]";
    }

    private static string Line(SourceSpan span) => (span.Start.Line + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);
}
