// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>The tables of a vector plan, sorted; each header and deviation with the case above it.</summary>
internal sealed class PlanTables
{
    private readonly Dictionary<string, FilePlace> _places = new(StringComparer.Ordinal);
    private readonly MistakeList _mistakes;
    private readonly List<KeyTable> _requirements = [];
    private readonly List<CaseTables> _cases = [];
    private KeyTable? _set;

    public PlanTables(DocumentSyntax document, MistakeList mistakes)
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

        Set = _set ?? Table(PlanSetKeys.Section, 0, null);
    }

    /// <summary>The one <c>[set]</c>.</summary>
    public KeyTable Set { get; }

    /// <summary>Requirements in order.</summary>
    public IReadOnlyList<KeyTable> Requirements => _requirements;

    /// <summary>Cases in order.</summary>
    public IReadOnlyList<CaseTables> Cases => _cases;

    /// <summary>Whether every table and key has a place.</summary>
    public bool IsAllKnown { get; private set; } = true;

    private static string Right => $"a vector plan holds {string.Join(", ", PlanKeys.Sections.Select(PlanKeys.Shown))}";

    private void Sort(TableSyntaxBase table)
    {
        string name = TomlNames.Text(table.Name);
        SourceSpan place = table.Name!.Span;
        if (!PlanKeys.Sections.Contains(name, StringComparer.Ordinal))
        {
            IsAllKnown = false;
            string nearest = PlanKeys.Shown(NearestName.Find(name, PlanKeys.Sections));
            _mistakes.Add(place, $"[{TomlNames.Shown(name)}] is no section of a vector plan; the nearest is {nearest}");
        }
        else if (table is TableArraySyntax != (name != PlanSetKeys.Section))
        {
            IsAllKnown = false;
            _mistakes.Add(place, name == PlanSetKeys.Section
                ? "[[set]] is a list of sections; a section stands once: [set]"
                : $"[{name}] may stand many times and has two brackets: [[{name}]]");
        }
        else
        {
            Take(table, name, place);
        }
    }

    private void Take(TableSyntaxBase table, string name, SourceSpan place)
    {
        switch (name)
        {
            case PlanSetKeys.Section when _set is not null:
                _mistakes.Add(place, $"[set] stands twice, first in line {_set.Place!.Value.Start.Line + 1}; put its keys there");
                break;
            case PlanSetKeys.Section:
                _set = Table(name, 0, table);
                break;
            case PlanRequirementKeys.Section:
                _requirements.Add(Table(name, _requirements.Count, table));
                break;
            case PlanCaseKeys.Section:
                _cases.Add(new CaseTables(Table(name, _cases.Count, table)));
                break;
            case var _ when _cases.Count == 0:
                _mistakes.Add(place, $"[[{name}]] stands before every [[case]]; put it below the case that it is for");
                break;
            case PlanHeaderKeys.Section:
                _cases[^1].Headers.Add(Table(name, _cases[^1].Headers.Count, table));
                break;
            default:
                _cases[^1].Deviations.Add(Table(name, _cases[^1].Deviations.Count, table));
                break;
        }
    }

    private KeyTable Table(string section, int index, TableSyntaxBase? syntax) =>
        new(new SectionWords("vector plan", section, PlanKeys.Shown(section), PlanKeys.Of(section)), index, syntax, _places, _mistakes);
}

/// <summary>A case and what stands below it.</summary>
/// <param name="Own">Its own keys.</param>
internal sealed record CaseTables(KeyTable Own)
{
    /// <summary>Its headers.</summary>
    public List<KeyTable> Headers { get; } = [];

    /// <summary>Its deviations.</summary>
    public List<KeyTable> Deviations { get; } = [];
}
