// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Subjects;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Reads one <c>[[vary]]</c>, or says what is wrong with it.</summary>
internal static class VaryReader
{
    /// <summary>What is varied; null after a mistake.</summary>
    /// <param name="table">The table.</param>
    /// <param name="isHypercube">Whether the points are those of a Latin hypercube.</param>
    public static VariedKey? Read(KeyTable table, bool isHypercube)
    {
        table.Require(VaryKeys.Key);
        KeyDefinition? key = table.Value(VaryKeys.Key) is ValueSyntax written ? ReadKey(table, written) : null;
        bool isInRatios = table.Word(VaryKeys.Spacing) == VaryKeys.Ratio;
        bool hasRange = table.Has(VaryKeys.From) || table.Has(VaryKeys.To) || table.Has(VaryKeys.Count);
        if (table.Has(VaryKeys.Values) && hasRange)
        {
            table.Add(VaryKeys.Values, "[[vary]] has vary.values and a range as well; keep values, or from, to and count");
            return null;
        }

        if (key is null)
        {
            return null;
        }

        if (!table.Has(VaryKeys.Values) && !hasRange)
        {
            string right = key is ChoiceKey ? "values = [\"…\", …]" : isHypercube ? "from and to, or values" : "from, to and count, or values";
            table.Add(table.Place, $"[[vary]] of {key.Name} has no values; give {right}");
            return null;
        }

        VariedKey? varied = table.Has(VaryKeys.Values) ? ReadValues(table, key, isInRatios) : ReadRange(table, key, isInRatios, isHypercube);
        return table.IsSound ? varied : null;
    }

    private static KeyDefinition? ReadKey(KeyTable table, ValueSyntax written)
    {
        if (written is not StringValueSyntax { Value: string name })
        {
            table.Add(written.Span, $"vary.key = {ValueReader.Shown(written)} must be a key in quotation marks, for example \"heart.rate_bpm\"");
            return null;
        }

        if (VariedKey.IsConstant(name))
        {
            return Constant(name);
        }

        KeyDefinition? key = AllKeys.Find(name);
        string? wrong = key switch
        {
            null => $"{TomlNames.Shown(name)} is no key; the nearest is {AllKeys.Nearest(name).Name}",
            _ when key == ScenarioKeys.Seed => $"{name} cannot be varied; every point is run with the seeds of study.first_seed and study.seed_count",
            _ when key == SubjectDrawKeys.Seed => $"{name} cannot be varied; every point is run with the persons of study.first_subject_seed and study.subject_count",
            _ when key.Section == StudyKeys.RequirementsSection => $"{name} cannot be varied, it changes no run; set it in [requirements]",
            TextKey => $"{name} holds text and cannot be varied; a key with a number or a word can",
            _ => null,
        };
        if (wrong is not null)
        {
            table.Add(written.Span, wrong);
            return null;
        }

        return key;
    }

    /// <summary>A constant of a detector that is not known yet: any number.</summary>
    internal static NumberKey Constant(string name) => new()
    {
        Name = name,
        Meaning = "Constant of the detector.",
        Source = "The detector.",
        HasDefault = false,
        Minimum = double.MinValue,
        Maximum = double.MaxValue,
        Default = 0,
    };

    private static VariedKey? ReadValues(KeyTable table, KeyDefinition key, bool isInRatios)
    {
        ValueSyntax given = table.Value(VaryKeys.Values)!;
        if (given is not ArraySyntax { Items.ChildrenCount: > 0 } list)
        {
            table.Add(given.Span, $"vary.values = {ValueReader.Shown(given)} must be {VaryKeys.Values.Allowed}, at least one");
            return null;
        }

        var values = new List<object>();
        foreach (ArrayItemSyntax item in list.Items)
        {
            ValueSyntax written = item.Value!;
            void Report(string message) => table.Add(written.Span, message);
            object? value = key is NumberKey number
                ? ValueReader.Number(number, key.Name, written, Report)
                : ValueReader.Word((ChoiceKey)key, key.Name, written, Report);
            if (value is null)
            {
                continue;
            }

            if (values.Contains(value))
            {
                Report($"vary.values has {ValueReader.Shown(written)} twice; each value may stand once");
            }
            else if (isInRatios && value is not > 0.0)
            {
                Report($"vary.spacing = \"ratio\" needs values above 0, and one is {ValueReader.Shown(written)}; use \"even\"");
            }

            values.Add(value);
        }

        return new VariedKey(key) { Values = values, IsInRatios = isInRatios };
    }

    private static VariedKey? ReadRange(KeyTable table, KeyDefinition key, bool isInRatios, bool isHypercube)
    {
        if (key is not NumberKey number)
        {
            table.Add(VaryKeys.From, $"{key.Name} holds a word and has no range; give values, of {key.RangeText}");
            return null;
        }

        table.Require(VaryKeys.From, $" for {key.Name}");
        table.Require(VaryKeys.To, $" for {key.Name}");
        if (isHypercube)
        {
            table.Refuse(VaryKeys.Count, "a grid or one key at a time (a Latin hypercube takes study.point_count)");
        }
        else
        {
            table.Require(VaryKeys.Count, $" for {key.Name}");
        }

        double? from = End(table, VaryKeys.From, number);
        double? to = End(table, VaryKeys.To, number);
        double? count = isHypercube ? 0 : table.Given(VaryKeys.Count);
        if (from is not double a || to is not double b || count is not double n)
        {
            return null;
        }

        if (a == b)
        {
            table.Add(VaryKeys.To, $"vary.from and vary.to of {key.Name} are both {Text(a)}; a range has two ends");
        }
        else if (isInRatios && (a <= 0 || b <= 0))
        {
            table.Add(VaryKeys.Spacing, $"vary.spacing = \"ratio\" needs both ends of {key.Name} above 0, and they are {Text(a)} and {Text(b)}; use \"even\"");
        }
        else if (number.IsWhole && n > Math.Abs(b - a) + 1)
        {
            table.Add(VaryKeys.Count, $"vary.count = {Text(n)}, but {key.Name} has only {Text(Math.Abs(b - a) + 1)} whole numbers from {Text(a)} to {Text(b)}; at most as many");
        }

        return new VariedKey(key) { From = a, To = b, Count = (int)n, IsInRatios = isInRatios };
    }

    private static double? End(KeyTable table, FreeKey end, NumberKey key) => table.Value(end) is ValueSyntax value
        ? ValueReader.Number(key, $"{end.Name} of {key.Name}", value, m => table.Add(value.Span, m))
        : null;

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
