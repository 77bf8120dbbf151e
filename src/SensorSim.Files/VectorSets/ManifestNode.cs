// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Files.VectorSets;

/// <summary>An object of a manifest, whose fields are asked for by name and must be what they are asked for.</summary>
internal readonly struct ManifestNode
{
    private const int LongestText = 4000;
    private const int MostItems = 100_000;

    private readonly JsonElement _element;
    private readonly string _file;
    private readonly string _place;

    public ManifestNode(JsonElement element, string file, string place)
    {
        _element = element;
        _file = file;
        _place = place;
        if (element.ValueKind != JsonValueKind.Object)
        {
            throw Error("must be an object");
        }
    }

    public ManifestNode Node(string name) => new(Get(name), _file, Place(name));

    public IEnumerable<ManifestNode> List(string name)
    {
        (string file, string place) = (_file, Place(name));
        return Array(name).EnumerateArray().Select((e, i) => new ManifestNode(e, file, FormattableString.Invariant($"{place}[{i}]")));
    }

    public IReadOnlyList<string> Texts(string name)
    {
        var texts = new List<string>();
        foreach (JsonElement item in Array(name).EnumerateArray())
        {
            texts.Add(item.ValueKind == JsonValueKind.String && item.GetString() is { Length: <= LongestText } text ? text : throw Error($"{name} must be a list of texts"));
        }

        return texts;
    }

    public string Text(string name) => Get(name) is { ValueKind: JsonValueKind.String } value && value.GetString() is { Length: <= LongestText } text
        ? text
        : throw Error(FormattableString.Invariant($"{name} must be a text of at most {LongestText} characters"));

    // What is printed as it stands.
    public string Line(string name) => Text(name) is string text && !text.Any(char.IsControl) ? text : throw Error($"{name} must be text on one line");

    public string Path(string name)
    {
        string path = Text(name);
        return SetNames.Fault(path) is string fault ? throw Error($"{name} {SensorSim.Files.Text.InputFiles.Quote(path)} {fault}") : path;
    }

    public string Sum(string name)
    {
        string sum = Text(name);
        return sum.Length == 64 && sum.All(c => c is (>= '0' and <= '9') or (>= 'a' and <= 'f'))
            ? sum
            : throw Error($"{name} must be a SHA-256: 64 lower-case hexadecimal digits");
    }

    public long Integer(string name, long least, long most) =>
        Get(name) is { ValueKind: JsonValueKind.Number } value && value.TryGetInt64(out long number) && number >= least && number <= most
            ? number
            : throw Error(FormattableString.Invariant($"{name} must be a whole number from {least} to {most}"));

    public double Number(string name) =>
        Get(name) is { ValueKind: JsonValueKind.Number } value && value.TryGetDouble(out double number) && double.IsFinite(number)
            ? number
            : throw Error($"{name} must be a finite number");

    public InputFileException Error(string message) => new(_file, 0, 0, _place.Length == 0 ? $"{message}." : $"{_place}: {message}.");

    private JsonElement Array(string name)
    {
        JsonElement value = Get(name);
        return value.ValueKind == JsonValueKind.Array && value.GetArrayLength() <= MostItems
            ? value
            : throw Error(FormattableString.Invariant($"{name} must be a list of at most {MostItems}"));
    }

    private JsonElement Get(string name) => _element.TryGetProperty(name, out JsonElement value) ? value : throw Error($"{name} is missing");

    private string Place(string name) => _place.Length == 0 ? name : $"{_place}.{name}";
}
