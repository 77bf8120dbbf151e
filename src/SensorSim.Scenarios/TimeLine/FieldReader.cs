// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>The fields of one time-line table of a file, each once, with their places.</summary>
internal sealed class FieldReader
{
    private readonly TimeLineTable _table;
    private readonly MistakeList _mistakes;
    private readonly Dictionary<string, ValueSyntax> _fields = new(StringComparer.Ordinal);

    public FieldReader(TimeLineTable table, TableSyntaxBase syntax, MistakeList mistakes)
    {
        _table = table;
        _mistakes = mistakes;
        Place = syntax.Name!.Span;
        foreach (KeyValueSyntax pair in syntax.Items)
        {
            string name = TomlNames.Text(pair.Key);
            if (table.Fields.All(f => f.Name != name))
            {
                string nearest = NearestName.Find(name, table.Fields.Select(f => f.Name));
                Add(pair.Key!.Span, $"{TomlNames.Shown(name)} is no field of [[{table.Name}]]; the nearest is {nearest}");
            }
            else if (!_fields.TryAdd(name, pair.Value!))
            {
                Add(pair.Key!.Span, $"{name} stands twice, first in line {_fields[name].Span.Start.Line + 1}; keep one");
            }
        }
    }

    /// <summary>Place of the table's name.</summary>
    public SourceSpan Place { get; }

    /// <summary>Whether nothing was wrong so far.</summary>
    public bool IsSound { get; private set; } = true;

    public bool Has(string name) => _fields.ContainsKey(name);

    public ValueSyntax Value(string name) => _fields[name];

    public SourceSpan PlaceOf(string name) => _fields.TryGetValue(name, out ValueSyntax? value) ? value.Span : Place;

    public void Add(SourceSpan? place, string message)
    {
        IsSound = false;
        _mistakes.Add(place, message);
    }

    /// <summary>Reports a field that must be there and is not.</summary>
    public bool Require(string name)
    {
        if (Has(name))
        {
            return true;
        }

        TableField field = _table.Fields.First(f => f.Name == name);
        Add(Place, $"[[{_table.Name}]] needs {name}: {field.Allowed}");
        return false;
    }

    /// <summary>Text of a field that must be there; null after a mistake.</summary>
    public string? Text(string name)
    {
        if (!Require(name))
        {
            return null;
        }

        if (_fields[name] is StringValueSyntax text)
        {
            return text.Value ?? "";
        }

        Add(PlaceOf(name), $"{name} = {ValueReader.Shown(_fields[name])} must be text in quotation marks");
        return null;
    }

    /// <summary>A finite number of a field that must be there; NaN after a mistake.</summary>
    public double Number(string name) => Require(name) ? Number(name, _fields[name]) : double.NaN;

    /// <summary>A finite number at a place; NaN after a mistake.</summary>
    public double Number(string name, ValueSyntax value)
    {
        if (ValueReader.Number(value) is double number && double.IsFinite(number))
        {
            return number;
        }

        Add(value.Span, $"{name} = {ValueReader.Shown(value)} must be a finite number");
        return double.NaN;
    }

    /// <summary>A length of time above 0 that must be there [s]; NaN after a mistake.</summary>
    public double Positive(string name)
    {
        double number = Number(name);
        if (number <= 0)
        {
            Add(PlaceOf(name), $"{name} = {Shown(number)} must be above 0 s");
            return double.NaN;
        }

        return number;
    }

    /// <summary>When the table begins [s]; NaN after a mistake.</summary>
    /// <param name="endSeconds">End of the scenario [s]; infinite when it is not known.</param>
    public double Begin(double endSeconds)
    {
        double at = Number(TimeLineTables.At);
        if (at < 0)
        {
            Add(PlaceOf(TimeLineTables.At), $"{TimeLineTables.At} = {Shown(at)} lies before the start of the scenario; at least 0 s");
            return double.NaN;
        }

        if (at >= endSeconds)
        {
            Add(PlaceOf(TimeLineTables.At), $"{TimeLineTables.At} = {Shown(at)} lies after the end of the scenario; below scenario.duration_s = {Shown(endSeconds)}");
            return double.NaN;
        }

        return at;
    }

    public static string Shown(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
