// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Reads seeds: a first one and how many, or a list.</summary>
internal static class SeedReader
{
    /// <summary>The seeds; none after a mistake.</summary>
    /// <param name="table">Their section.</param>
    /// <param name="first">Key of the first.</param>
    /// <param name="count">Key of the number.</param>
    /// <param name="list">Key of the list.</param>
    public static IReadOnlyList<ulong> Read(KeyTable table, NumberKey first, NumberKey count, FreeKey list)
    {
        if (table.Value(list) is ValueSyntax given)
        {
            foreach (NumberKey key in new[] { first, count }.Where(table.Has))
            {
                table.Add(key, $"{key.Name} and {list.Name} both say which seeds; keep one of the two ways");
            }

            return OfList(table, first, list, given);
        }

        double start = table.Number(first);
        double number = table.Number(count);
        if (number - 1 > first.Maximum - start)
        {
            table.Add(first, $"{first.Name} = {Text(start)} with {Text(number)} seeds goes beyond {Text(first.Maximum)}; begin lower");
            return [];
        }

        return [.. Enumerable.Range(0, (int)number).Select(i => (ulong)start + (ulong)i)];
    }

    private static List<ulong> OfList(KeyTable table, NumberKey one, FreeKey list, ValueSyntax given)
    {
        if (given is not ArraySyntax { Items.ChildrenCount: > 0 } array)
        {
            table.Add(given.Span, $"{list.Name} = {ValueReader.Shown(given)} must be {list.Allowed}, at least one");
            return [];
        }

        var seeds = new List<ulong>();
        var found = new HashSet<ulong>();
        foreach (ArrayItemSyntax item in array.Items)
        {
            ValueSyntax value = item.Value!;
            if (ValueReader.Number(one, list.Name, value, m => table.Add(value.Span, m)) is double seed)
            {
                if (!found.Add((ulong)seed))
                {
                    table.Add(value.Span, $"{list.Name} has {Text(seed)} twice; each seed may stand once");
                }

                seeds.Add((ulong)seed);
            }
        }

        return seeds;
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
