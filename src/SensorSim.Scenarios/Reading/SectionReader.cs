// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Reads the sections of one file: each once, each key once, each value as its key allows.</summary>
internal sealed class SectionReader
{
    private readonly IReadOnlyCollection<string> _sections;
    private readonly Func<string, string> _noSection;
    private readonly Func<string, KeyDefinition> _nearest;
    private readonly KeyValues _given;
    private readonly Dictionary<string, SourceSpan> _places;
    private readonly MistakeList _mistakes;
    private readonly Dictionary<string, SourceSpan> _found = new(StringComparer.Ordinal);

    /// <summary>Creates a reader.</summary>
    /// <param name="sections">Sections that the file may hold.</param>
    /// <param name="noSection">What to say of any other section, by its name.</param>
    /// <param name="nearest">The key that a mistyped name most likely meant.</param>
    /// <param name="given">Takes the values.</param>
    /// <param name="places">Takes their places.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public SectionReader(
        IReadOnlyCollection<string> sections,
        Func<string, string> noSection,
        Func<string, KeyDefinition> nearest,
        KeyValues given,
        Dictionary<string, SourceSpan> places,
        MistakeList mistakes)
    {
        _sections = sections;
        _noSection = noSection;
        _nearest = nearest;
        _given = given;
        _places = places;
        _mistakes = mistakes;
    }

    /// <summary>Reads one table.</summary>
    public void Read(TableSyntaxBase table)
    {
        string section = TomlNames.Text(table.Name);
        if (!_sections.Contains(section))
        {
            _mistakes.Add(table.Name!.Span, _noSection(section));
            return;
        }

        if (table is TableArraySyntax)
        {
            _mistakes.Add(table.Span, $"[[{section}]] is a list of sections; a section stands once: [{section}]");
            return;
        }

        if (!_found.TryAdd(section, table.Name!.Span))
        {
            _mistakes.Add(table.Name.Span, $"[{section}] stands twice, first in line {Line(_found[section])}; put its keys there");
            return;
        }

        foreach (KeyValueSyntax pair in table.Items)
        {
            string name = $"{section}.{TomlNames.Text(pair.Key)}";
            if (AllKeys.Find(name) is not KeyDefinition key)
            {
                _mistakes.Add(pair.Key!.Span, $"{TomlNames.Shown(name)} is no key; the nearest is {_nearest(name).Name}");
            }
            else if (!_places.TryAdd(name, pair.Value!.Span))
            {
                _mistakes.Add(pair.Key!.Span, $"{name} stands twice, first in line {Line(_places[name])}; keep one");
            }
            else
            {
                ValueReader.Read(key, pair.Value!, _given, _mistakes);
            }
        }
    }

    private static string Line(SourceSpan span) => (span.Start.Line + 1).ToString(CultureInfo.InvariantCulture);
}
