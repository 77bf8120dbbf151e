// SPDX-License-Identifier: MIT
using System.Text.Json;
using System.Text.Json.Nodes;

namespace SensorSim.Scenarios.Schemas;

/// <summary>A kind of TOML file and its JSON Schema, made from the same lists of keys that its reader has.</summary>
/// <remarks>
/// A schema says which sections and keys there are, and type, range and words of each value. It cannot say what depends on something else in the
/// file or on other files: that a change keeps its key in range, that two keys contradict each other, that a file exists. What a reader takes, the
/// schema takes; what the schema takes, a reader may still refuse.
/// Source: JSON Schema draft-07 (json-schema.org, 2018), the newest that editors commonly know (common practice).
/// </remarks>
public sealed class FileSchema
{
    private const string Draft = "http://json-schema.org/draft-07/schema#";
    private readonly IReadOnlyList<SchemaSection> _sections;
    private readonly string[] _required;

    internal FileSchema(string name, string meaning, IEnumerable<SchemaSection> sections, params string[] required)
    {
        Name = name;
        Meaning = meaning;
        _sections = [.. sections];
        _required = required;
    }

    /// <summary>The kind of file in a word, for example <c>scenario</c>.</summary>
    public string Name { get; }

    /// <summary>What such a file is, in a sentence.</summary>
    public string Meaning { get; }

    /// <summary>Name of the schema's own file.</summary>
    public string FileName => $"{Name}.schema.json";

    /// <summary>Writes the schema: indented, UTF-8, LF, the same bytes everywhere.</summary>
    /// <param name="stream">Takes it.</param>
    public void Write(Stream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            ToSchema().WriteTo(json);
        }

        stream.WriteByte((byte)'\n');
    }

    internal JsonObject ToSchema()
    {
        var properties = new JsonObject();
        foreach (SchemaSection section in _sections)
        {
            Place(section, properties)[section.Name[(section.Name.LastIndexOf('.') + 1)..]] = section.ToSchema();
        }

        var schema = new JsonObject
        {
            ["$schema"] = Draft,
            ["title"] = Name,
            ["description"] = Meaning,
            ["type"] = "object",
            ["properties"] = properties,
            ["additionalProperties"] = false,
        };
        if (_required.Length > 0)
        {
            schema["required"] = new JsonArray([.. _required.Select(r => (JsonNode)r)]);
        }

        return schema;
    }

    // [[case.header]] stands below its [[case]]: TOML makes it a property of the item above.
    private static JsonObject Place(SchemaSection section, JsonObject properties)
    {
        int dot = section.Name.LastIndexOf('.');
        return dot < 0 ? properties : properties[section.Name[..dot]]!["items"]!["properties"]!.AsObject();
    }
}
