// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>The keys of one section of a study or a vector plan, each once, with their places.</summary>
internal sealed class KeyTable
{
    private readonly Dictionary<string, ValueSyntax> _values = new(StringComparer.Ordinal);
    private readonly Dictionary<string, FilePlace> _places;
    private readonly MistakeList _mistakes;
    private readonly int _index;
    private readonly string _shown;

    /// <summary>Reads the names; values wait until they are asked for.</summary>
    /// <param name="section">The section.</param>
    /// <param name="index">Which of several sections of that name, from 0.</param>
    /// <param name="syntax">The table; null: it is not there.</param>
    /// <param name="places">Takes places.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public KeyTable(SectionWords section, int index, TableSyntaxBase? syntax, Dictionary<string, FilePlace> places, MistakeList mistakes)
    {
        Section = section.Name;
        _shown = section.Shown;
        _index = index;
        _places = places;
        _mistakes = mistakes;
        Place = syntax?.Name!.Span;
        if (syntax is not null)
        {
            Keep(section.Name, syntax.Name!.Span);
        }

        string[] known = [.. section.Keys.Select(k => k.Name)];
        foreach (KeyValueSyntax pair in syntax?.Items ?? Enumerable.Empty<KeyValueSyntax>())
        {
            string key = $"{section.Name}.{TomlNames.Text(pair.Key)}";
            if (!known.Contains(key, StringComparer.Ordinal))
            {
                mistakes.Add(pair.Key!.Span, $"{TomlNames.Shown(key)} is no key of a {section.File}; the nearest is {NearestName.Find(key, known)}");
            }
            else if (!_values.TryAdd(key, pair.Value!))
            {
                mistakes.Add(pair.Key!.Span, $"{key} stands twice, first in line {_values[key].Span.Start.Line + 1}; keep one");
            }
            else
            {
                Keep(key, pair.Value!.Span);
            }
        }
    }

    /// <summary>Name of the section.</summary>
    public string Section { get; }

    /// <summary>Place of the table's name; null when it is not there.</summary>
    public SourceSpan? Place { get; }

    /// <summary>Whether the table is there.</summary>
    public bool IsThere => Place is not null;

    /// <summary>Whether every value asked for so far was sound.</summary>
    public bool IsSound { get; private set; } = true;

    public bool Has(KeyDefinition key) => _values.ContainsKey(key.Name);

    /// <summary>The value of a key; null when it is not given.</summary>
    public ValueSyntax? Value(KeyDefinition key) => _values.GetValueOrDefault(key.Name);

    public SourceSpan? PlaceOf(KeyDefinition key) => _values.TryGetValue(key.Name, out ValueSyntax? value) ? value.Span : Place;

    public void Add(SourceSpan? place, string message)
    {
        IsSound = false;
        _mistakes.Add(place, message);
    }

    public void Add(KeyDefinition key, string message) => Add(PlaceOf(key), message);

    /// <summary>Keeps a place under a name.</summary>
    public void Keep(string name, SourceSpan span) =>
        _places[StudyFile.PlaceName(name, _index)] = new FilePlace(span.Start.Line + 1, span.Start.Column + 1);

    /// <summary>A number, or null: not given, or wrong and told.</summary>
    public double? Given(NumberKey key) => _values.TryGetValue(key.Name, out ValueSyntax? value)
        ? ValueReader.Number(key, key.Name, value, m => Add(value.Span, m))
        : null;

    /// <summary>A number, the default when not given.</summary>
    public double Number(NumberKey key) => Given(key) ?? key.Default;

    /// <summary>A word, the default when not given.</summary>
    public string Word(ChoiceKey key) => _values.TryGetValue(key.Name, out ValueSyntax? value)
        ? ValueReader.Word(key, key.Name, value, m => Add(value.Span, m)) ?? key.Default
        : key.Default;

    /// <summary>Text on one line, empty when not given.</summary>
    public string Text(TextKey key)
    {
        if (!_values.TryGetValue(key.Name, out ValueSyntax? value))
        {
            return "";
        }

        if (value is StringValueSyntax { Value: string text } && text.Length <= key.MaximumLength && !text.Any(char.IsControl) && text.Length > 0)
        {
            return text;
        }

        Add(value.Span, $"{key.Name} = {ValueReader.Shown(value)} must be text on one line, at least one character and {key.RangeText}");
        return "";
    }

    /// <summary>Whether a key is true; the default when not given.</summary>
    public bool Flag(FlagKey key)
    {
        if (!_values.TryGetValue(key.Name, out ValueSyntax? value))
        {
            return key.Default;
        }

        if (value is BooleanValueSyntax flag)
        {
            return flag.Value;
        }

        Add(value.Span, $"{key.Name} = {ValueReader.Shown(value)} must be {key.RangeText}");
        return key.Default;
    }

    /// <summary>Reports a key that must be given and is not.</summary>
    public void Require(KeyDefinition key, string why = "")
    {
        if (!Has(key))
        {
            Add(Place, $"{_shown} needs {key.Key}{why}: {key.RangeText} {key.Unit}".TrimEnd());
        }
    }

    /// <summary>Reports a key that says nothing here.</summary>
    /// <param name="key">The key.</param>
    /// <param name="why">When it would say something.</param>
    public void Refuse(KeyDefinition key, string why)
    {
        if (Has(key))
        {
            Add(key, $"{key.Name} says nothing here; it is for {why}, leave it out");
        }
    }
}
