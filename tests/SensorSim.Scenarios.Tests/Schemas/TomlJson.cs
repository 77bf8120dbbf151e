// SPDX-License-Identifier: MIT
using System.Text.Json;
using System.Text.Json.Nodes;
using Tomlyn;
using Tomlyn.Model;

namespace SensorSim.Scenarios.Tests.Schemas;

/// <summary>TOML as the JSON that a schema judges: tables are objects, lists of tables and lists are arrays.</summary>
internal static class TomlJson
{
    public static JsonElement Of(string toml)
    {
        TomlTable table = TomlSerializer.Deserialize<TomlTable>(toml, (TomlSerializerOptions?)null) ?? [];
        return JsonSerializer.SerializeToElement(Node(table));
    }

    private static JsonNode? Node(object? value) => value switch
    {
        TomlTable table => new JsonObject(table.Select(p => KeyValuePair.Create(p.Key, Node(p.Value)))),
        TomlTableArray tables => new JsonArray([.. tables.Select(Node)]),
        TomlArray list => new JsonArray([.. list.Select(Node)]),
        string text => JsonValue.Create(text),
        bool flag => JsonValue.Create(flag),
        long whole => JsonValue.Create(whole),
        double real => JsonValue.Create(real),
        _ => throw new ArgumentException($"{value?.GetType()} has no JSON", nameof(value)),
    };
}
