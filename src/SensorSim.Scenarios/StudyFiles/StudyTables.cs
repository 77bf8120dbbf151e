// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.TimeLine;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>The tables of a study file, sorted.</summary>
internal sealed class StudyTables
{
    private const string ConstantsTable = "detector.constants";
    private readonly Dictionary<string, TableSyntaxBase> _single = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<TableSyntaxBase>> _many = new(StringComparer.Ordinal);
    private readonly Dictionary<int, TableSyntaxBase> _constants = [];
    private readonly Dictionary<string, KeyTable> _read = new(StringComparer.Ordinal);
    private readonly Dictionary<string, IReadOnlyList<KeyTable>> _readMany = new(StringComparer.Ordinal);
    private readonly MistakeList _mistakes;

    public StudyTables(DocumentSyntax document, MistakeList mistakes)
    {
        _mistakes = mistakes;
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            IsAllKnown = false;
            mistakes.Add(pair.Span, $"{TomlNames.Shown(TomlNames.Text(pair.Key))} stands outside of every section; {Right}");
        }

        foreach (TableSyntaxBase table in document.Tables)
        {
            Sort(table);
        }
    }

    /// <summary>Places of keys and sections, see <see cref="StudyFile.PlaceName"/>.</summary>
    public Dictionary<string, FilePlace> Places { get; } = new(StringComparer.Ordinal);

    /// <summary>Whether every table and key has a place.</summary>
    public bool IsAllKnown { get; private set; } = true;

    private static string Right => $"a study holds {string.Join(", ", StudyKeys.Sections.Select(StudyKeys.Shown))}";

    /// <summary>A section that stands at most once.</summary>
    public KeyTable Single(string section)
    {
        if (!_read.TryGetValue(section, out KeyTable? table))
        {
            table = new KeyTable(Words(section), 0, _single.GetValueOrDefault(section), Places, _mistakes);
            _read.Add(section, table);
        }

        return table;
    }

    /// <summary>The sections of a name that may stand many times, in order.</summary>
    public IReadOnlyList<KeyTable> Many(string section)
    {
        if (!_readMany.TryGetValue(section, out IReadOnlyList<KeyTable>? tables))
        {
            tables = [.. _many.GetValueOrDefault(section, []).Select((t, i) => new KeyTable(Words(section), i, t, Places, _mistakes))];
            _readMany.Add(section, tables);
        }

        return tables;
    }

    /// <summary>The table of constants below a detector; null when there is none.</summary>
    public TableSyntaxBase? ConstantsOf(int detector) => _constants.GetValueOrDefault(detector);

    private void Sort(TableSyntaxBase table)
    {
        string name = TomlNames.Text(table.Name);
        SourceSpan place = table.Name!.Span;
        bool isMany = table is TableArraySyntax;
        if (name == ConstantsTable && !isMany)
        {
            SortConstants(table, place);
        }
        else if (!StudyKeys.Sections.Contains(name, StringComparer.Ordinal))
        {
            IsAllKnown = false;
            _mistakes.Add(place, NoSection(name));
        }
        else if (StudyKeys.Repeated.Contains(name, StringComparer.Ordinal))
        {
            if (!isMany)
            {
                _mistakes.Add(place, $"[{name}] may stand many times and has two brackets: [[{name}]]");
                return;
            }

            _many.TryAdd(name, []);
            _many[name].Add(table);
        }
        else if (isMany)
        {
            IsAllKnown = false;
            _mistakes.Add(place, $"[[{name}]] is a list of sections; a section stands once: [{name}]");
        }
        else if (!_single.TryAdd(name, table))
        {
            _mistakes.Add(place, $"[{name}] stands twice, first in line {_single[name].Name!.Span.Start.Line + 1}; put its keys there");
        }
    }

    private void SortConstants(TableSyntaxBase table, SourceSpan place)
    {
        int detector = _many.GetValueOrDefault(DetectorKeys.Section, []).Count - 1;
        if (detector < 0)
        {
            _mistakes.Add(place, $"[{ConstantsTable}] stands before every [[detector]]; put it below the detector that it is for");
        }
        else if (!_constants.TryAdd(detector, table))
        {
            _mistakes.Add(place, $"[{ConstantsTable}] stands twice below one [[detector]], first in line {_constants[detector].Name!.Span.Start.Line + 1}; put its keys there");
        }
    }

    private static SectionWords Words(string section) => new("study", section, StudyKeys.Shown(section), StudyKeys.Of(section));

    private static string NoSection(string name)
    {
        string shown = TomlNames.Shown(name);
        return TimeLineTables.Find(name) is not null || AllKeys.Sections().Contains(name, StringComparer.Ordinal)
            ? $"[{shown}] belongs into the scenario; a study sets its keys with [[vary]]"
            : $"[{shown}] is no section of a study; the nearest is {StudyKeys.Shown(NearestName.Find(name, StudyKeys.Sections))}";
    }
}
