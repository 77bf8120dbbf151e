// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Calibrations;

/// <summary>The keys of one table of a calibration file, each once, with their places.</summary>
internal sealed class CalibrationTable
{
    private readonly string _name;
    private readonly MistakeList _mistakes;
    private readonly Dictionary<string, ValueSyntax> _values = new(StringComparer.Ordinal);

    /// <summary>Reads the names; values wait until they are asked for.</summary>
    /// <param name="name">Name of the table, as a section of <see cref="CalibrationKeys"/>.</param>
    /// <param name="syntax">The table; null: it is not there.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public CalibrationTable(string name, TableSyntaxBase? syntax, MistakeList mistakes)
    {
        _name = name;
        _mistakes = mistakes;
        Place = syntax?.Name!.Span;
        string[] known = [.. CalibrationKeys.All.Where(k => k.Section == name).Select(k => k.Name)];
        foreach (KeyValueSyntax pair in syntax?.Items ?? Enumerable.Empty<KeyValueSyntax>())
        {
            string key = $"{name}.{TomlNames.Text(pair.Key)}";
            if (!known.Contains(key, StringComparer.Ordinal))
            {
                mistakes.Add(pair.Key!.Span, $"{TomlNames.Shown(key)} is no key of a calibration; the nearest is {NearestName.Find(key, known)}");
            }
            else if (!_values.TryAdd(key, pair.Value!))
            {
                mistakes.Add(pair.Key!.Span, $"{key} stands twice, first in line {_values[key].Span.Start.Line + 1}; keep one");
            }
        }
    }

    /// <summary>Place of the table's name.</summary>
    public SourceSpan? Place { get; }

    /// <summary>Whether the table is there.</summary>
    public bool IsThere => Place is not null;

    public bool Has(KeyDefinition key) => _values.ContainsKey(key.Name);

    /// <summary>Place of a key's value, or of the table.</summary>
    public SourceSpan? PlaceOf(KeyDefinition key) => _values.TryGetValue(key.Name, out ValueSyntax? value) ? value.Span : Place;

    /// <summary>A number, or null: not given, or wrong and told.</summary>
    public double? Number(NumberKey key) => _values.TryGetValue(key.Name, out ValueSyntax? value)
        ? ValueReader.Number(key, key.Name, value, m => _mistakes.Add(value.Span, m))
        : null;

    /// <summary>A number that must be given; null after a mistake.</summary>
    public double? Required(NumberKey key)
    {
        if (!Has(key))
        {
            _mistakes.Add(Place, $"{Shown} needs {key.Key}: {key.RangeText} {key.Unit}".TrimEnd());
        }

        return Number(key);
    }

    /// <summary>A word, the default when not given.</summary>
    public string Word(ChoiceKey key) => _values.TryGetValue(key.Name, out ValueSyntax? value)
        ? ValueReader.Word(key, key.Name, value, m => _mistakes.Add(value.Span, m)) ?? key.Default
        : key.Default;

    /// <summary>Text on one line, empty when not given.</summary>
    public string Text(TextKey key)
    {
        var values = new KeyValues();
        if (_values.TryGetValue(key.Name, out ValueSyntax? value))
        {
            ValueReader.Read(key, value, values, _mistakes);
        }

        return values[key];
    }

    /// <summary>A list of numbers that must be given, 2 to 16 of them, each at least a step beyond the last; empty after a mistake.</summary>
    /// <param name="key">Key whose range holds for each number.</param>
    /// <param name="step">Smallest step; negative: they fall.</param>
    public IReadOnlyList<double> List(NumberKey key, double step)
    {
        const int Most = 16;
        if (!_values.TryGetValue(key.Name, out ValueSyntax? value) || value is not ArraySyntax { Items.ChildrenCount: >= 2 and <= Most } list)
        {
            string shown = value is null ? $"{Shown} needs {key.Key}: " : $"{key.Name} = {ValueReader.Shown(value)} must be ";
            _mistakes.Add(PlaceOf(key), $"{shown}a list of 2 to {Most} numbers, {key.RangeText} {key.Unit}".TrimEnd());
            return [];
        }

        var numbers = new List<double>();
        foreach (ArrayItemSyntax item in list.Items)
        {
            if (ValueReader.Number(key, key.Name, item.Value!, m => _mistakes.Add(item.Value!.Span, m)) is not double number)
            {
                return [];
            }

            // A little less than the step, so that decimal fractions keep it.
            if (numbers.Count > 0 && (number - numbers[^1]) * Math.Sign(step) < Math.Abs(step) * 0.999)
            {
                string way = step > 0 ? "rise" : "fall";
                _mistakes.Add(item.Value!.Span, FormattableString.Invariant(
                    $"{key.Name}: {number} after {numbers[^1]}; the numbers must {way} by {Math.Abs(step)} at least"));
                return [];
            }

            numbers.Add(number);
        }

        return numbers;
    }

    /// <summary>Adds a mistake at a key's value.</summary>
    public void Add(KeyDefinition key, string message) => _mistakes.Add(PlaceOf(key), message);

    private string Shown => _name == CalibrationKeys.Cuff ? $"[[{_name}]]" : $"[{_name}]";
}
