// SPDX-License-Identifier: MIT
using System.Text.Json.Nodes;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Schemas;

/// <summary>One section of a kind of file: its keys, and which of them must be given.</summary>
/// <param name="Name">Name as a file has it, without brackets; <c>case.header</c> stands below the last <c>case</c>.</param>
/// <param name="Values">Schema of the value of each key, in the order of the keys.</param>
internal sealed record SchemaSection(string Name, IReadOnlyList<(string Key, JsonObject Schema)> Values)
{
    /// <summary>Whether it may stand many times.</summary>
    public bool IsRepeated { get; init; }

    /// <summary>What it is, in a sentence; empty: the keys say it.</summary>
    public string Meaning { get; init; } = "";

    /// <summary>Keys that must be given wherever the section stands.</summary>
    public IReadOnlyList<string> Required { get; init; } = [];

    /// <summary>Sets of keys of which exactly one set must be given; empty: no such rule.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Ways { get; init; } = [];

    /// <summary>Most times that it may stand; null: any.</summary>
    public int? Most { get; init; }

    /// <summary>Sections from keys, in their order.</summary>
    /// <param name="keys">The keys.</param>
    /// <param name="mayBeEmpty">Whether text may be empty.</param>
    public static IEnumerable<SchemaSection> Of(IEnumerable<KeyDefinition> keys, bool mayBeEmpty) => keys
        .GroupBy(k => k.Section, StringComparer.Ordinal)
        .Select(s => new SchemaSection(s.Key, [.. s.Select(k => (k.Key, ValueSchema.Of(k, mayBeEmpty)))]));

    /// <summary>A table of the time line.</summary>
    /// <param name="table">The table.</param>
    public static SchemaSection Of(TimeLineTable table) => new(table.Name, [.. table.Fields.Select(f => (f.Name, ValueSchema.Of(f)))])
    {
        IsRepeated = true,
        Meaning = table.Meaning,
        Required = [.. table.Fields.Where(f => f.IsRequired).Select(f => f.Name)],
        Ways = table.Ways,
    };

    /// <summary>Its schema as a property of what holds it.</summary>
    public JsonObject ToSchema()
    {
        var table = new JsonObject { ["type"] = "object" };
        if (Meaning.Length > 0)
        {
            table["description"] = Meaning;
        }

        var properties = new JsonObject();
        foreach ((string key, JsonObject schema) in Values)
        {
            JsonObject value = schema.DeepClone().AsObject();

            // Editors fill in what is usual; of what has to be given nothing is.
            _ = Required.Contains(key, StringComparer.Ordinal) && value.Remove("default");
            properties[key] = value;
        }

        table["properties"] = properties;
        table["additionalProperties"] = false;
        if (Required.Count > 0)
        {
            table["required"] = Names(Required);
        }

        if (Ways.Count > 0)
        {
            table["oneOf"] = new JsonArray([.. Ways.Select(Way)]);
        }

        return IsRepeated ? List(table) : table;
    }

    // What belongs to another way alone may not stand beside it.
    private JsonObject Way(IReadOnlyList<string> way)
    {
        var others = new JsonObject();
        foreach (string other in Ways.SelectMany(w => w).Except(way, StringComparer.Ordinal))
        {
            others[other] = false;
        }

        return new JsonObject { ["required"] = Names(way), ["properties"] = others };
    }

    private JsonObject List(JsonObject table)
    {
        var list = new JsonObject { ["type"] = "array", ["items"] = table };
        if (Most is int most)
        {
            list["maxItems"] = most;
        }

        return list;
    }

    private static JsonArray Names(IEnumerable<string> names) => [.. names.Select(n => (JsonNode)n)];
}
