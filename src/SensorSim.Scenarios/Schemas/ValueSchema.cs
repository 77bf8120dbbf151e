// SPDX-License-Identifier: MIT
using System.Text.Json.Nodes;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Schemas;

/// <summary>The JSON Schema of one value: of a key or of a field of the time line.</summary>
internal static class ValueSchema
{
    // Text of a scenario is one line: the control characters of Unicode's category Cc are refused.
    private const string OneLine = "^[^\\u0000-\\u001f\\u007f-\\u009f]*$";

    /// <summary>Of a key.</summary>
    /// <param name="key">The key.</param>
    /// <param name="mayBeEmpty">Whether text may be empty.</param>
    /// <exception cref="ArgumentException">The key is of a kind that has no schema.</exception>
    public static JsonObject Of(KeyDefinition key, bool mayBeEmpty)
    {
        JsonObject schema = key switch
        {
            NumberKey number => Of(number),
            ChoiceKey choice => new JsonObject { ["type"] = "string", ["enum"] = Words(choice.Choices) },
            FlagKey => new JsonObject { ["type"] = "boolean" },
            TextKey text => new JsonObject { ["type"] = "string", ["minLength"] = mayBeEmpty ? 0 : 1, ["maxLength"] = text.MaximumLength, ["pattern"] = OneLine },
            FreeKey free => Of(free.Shape),
            _ => throw new ArgumentException($"{key.Name} is of a kind that has no schema", nameof(key)),
        };
        if (key.HasDefault && Default(key) is JsonValue usual)
        {
            schema["default"] = usual;
        }

        schema["description"] = Description(key);
        return schema;
    }

    /// <summary>Of a list of numbers that each have the range of a key.</summary>
    /// <param name="key">The key.</param>
    /// <param name="least">Fewest numbers.</param>
    /// <param name="most">Most numbers.</param>
    public static JsonObject List(NumberKey key, int least, int most) => new()
    {
        ["type"] = "array",
        ["items"] = Of(key),
        ["minItems"] = least,
        ["maxItems"] = most,
        ["description"] = Description(key),
    };

    /// <summary>Of a field of the time line.</summary>
    /// <param name="field">The field.</param>
    public static JsonObject Of(TableField field)
    {
        JsonObject schema = Of(field.Shape);
        string unit = field.Unit.Length == 0 ? "" : $" Unit: {field.Unit}.";
        schema["description"] = $"{field.Meaning}{unit} Allowed: {field.Allowed}.";
        return schema;
    }

    private static JsonObject Of(NumberKey key)
    {
        var schema = new JsonObject { ["type"] = key.IsWhole ? "integer" : "number" };

        // A constant of a detector that is not known yet has no range.
        if (key.Minimum > double.MinValue)
        {
            schema["minimum"] = key.Minimum;
        }

        if (key.Maximum < double.MaxValue)
        {
            schema["maximum"] = key.Maximum;
        }

        return schema;
    }

    private static JsonObject Of(ValueShape shape) => shape.Form switch
    {
        ValueForm.Number => Numbers(shape),
        ValueForm.Text => Texts(shape),
        ValueForm.NumberOrText => Either(Numbers(shape), Texts(shape)),
        ValueForm.TextOrTexts => Either(Texts(shape), List(Texts(shape), shape)),
        ValueForm.WholeNumbers => List(Whole(shape), shape),
        ValueForm.Texts => List(Texts(shape), shape),
        ValueForm.NumbersOrTexts => List(Either(Numbers(shape), Texts(shape)), shape),
        ValueForm.Pairs => List(Pair(), shape),
        ValueForm.TableOfNumbers => Table(Either(Numbers(shape), new JsonObject { ["type"] = "object" })),
        _ => throw new ArgumentOutOfRangeException(nameof(shape), shape.Form, "a form that has no schema"),
    };

    private static JsonObject Numbers(ValueShape shape)
    {
        var schema = new JsonObject { ["type"] = "number" };
        if (shape.Minimum is double least)
        {
            schema[shape.IsAboveMinimum ? "exclusiveMinimum" : "minimum"] = least;
        }

        if (shape.Maximum is double most)
        {
            schema["maximum"] = most;
        }

        return schema;
    }

    private static JsonObject Whole(ValueShape shape)
    {
        JsonObject schema = Numbers(shape);
        schema["type"] = "integer";
        return schema;
    }

    private static JsonObject Texts(ValueShape shape)
    {
        var schema = new JsonObject { ["type"] = "string" };
        if (shape.Choices.Count > 0)
        {
            schema["enum"] = Words(shape.Choices);
        }

        return schema;
    }

    private static JsonObject Pair() => new()
    {
        ["type"] = "array",
        ["items"] = new JsonObject { ["type"] = "number" },
        ["minItems"] = 2,
        ["maxItems"] = 2,
    };

    private static JsonObject List(JsonObject item, ValueShape shape)
    {
        var schema = new JsonObject { ["type"] = "array", ["items"] = item };
        if (shape.LeastItems > 0)
        {
            schema["minItems"] = shape.LeastItems;
        }

        if (shape.IsUnlike)
        {
            schema["uniqueItems"] = true;
        }

        return schema;
    }

    // A name with dots in it is a table in the table.
    private static JsonObject Table(JsonObject values) => new() { ["type"] = "object", ["additionalProperties"] = values };

    private static JsonObject Either(JsonObject one, JsonObject other) => new() { ["anyOf"] = new JsonArray(one, other) };

    private static JsonArray Words(IReadOnlyList<string> words) => [.. words.Select(w => (JsonNode)w)];

    private static JsonValue? Default(KeyDefinition key) => key switch
    {
        NumberKey number => number.IsWhole ? JsonValue.Create((long)number.Default) : JsonValue.Create(number.Default),
        ChoiceKey choice => JsonValue.Create(choice.Default),
        FlagKey flag => JsonValue.Create(flag.Default),
        _ => null,
    };

    private static string Description(KeyDefinition key)
    {
        string unit = key.Unit.Length == 0 ? "" : $" Unit: {key.Unit}.";
        string allowed = key is FreeKey ? $" Allowed: {key.RangeText}." : "";
        string changes = key.IsLive ? " May change over time." : "";
        return $"{key.Meaning}{unit}{allowed}{changes} Source: {key.Source}";
    }
}
