// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Sensors;

/// <summary>Reads a sensor file and reports every mistake with its place.</summary>
public static class SensorReader
{
    // A sensor is a page of text.
    private const int LargestBytes = 1 << 20;
    private const string Largest = "1 MiB, and a sensor is a page of text";

    /// <summary>Reads a file that the user names.</summary>
    /// <param name="path">Its path.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static SensorFile ReadFile(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        string wrong = "";
        return SmallFile.Read(path, LargestBytes, Largest, "there is no such file", m => wrong = m) is byte[] bytes
            ? Read(bytes, path, path)
            : throw new ScenarioException([new ScenarioMistake(path.Length == 0 ? "sensor" : path, 0, 0, $"{wrong}; give the path of a sensor (TOML)")]);
    }

    /// <summary>Reads the file that a scenario names; null when it cannot be, and the mistakes are told.</summary>
    /// <param name="draft">The scenario.</param>
    /// <param name="mistakes">Mistakes of the scenario.</param>
    internal static SensorFile? ReadNamed(ScenarioDraft draft, MistakeList mistakes)
    {
        string path = draft.Given[ScenarioKeys.Sensor];
        string full = Path.Combine(Path.GetDirectoryName(draft.File) ?? "", path);
        byte[]? bytes = SmallFile.Read(full, LargestBytes, Largest, "is no file", m => mistakes.Add(
            draft.Places[ScenarioKeys.Sensor.Name],
            $"{ScenarioKeys.Sensor.Name} = \"{TomlNames.Shown(path)}\" {m}; give the path of a sensor file (TOML), from the scenario's folder on"));
        try
        {
            return bytes is null ? null : Read(bytes, full, path);
        }
        catch (ScenarioException e)
        {
            foreach (ScenarioMistake mistake in e.Mistakes)
            {
                mistakes.AddIn(mistake.File, mistake.Line, mistake.Column, mistake.Message);
            }

            return null;
        }
    }

    private static SensorFile Read(byte[] bytes, string fullPath, string path)
    {
        var mistakes = new MistakeList(fullPath);
        DocumentSyntax document = TomlText.Parse(SmallFile.Text(bytes), fullPath, mistakes);
        var given = new KeyValues();
        var places = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        string[] sections = [.. SensorKeys.OfAFile.Select(k => k.Section).Distinct(StringComparer.Ordinal)];
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, $"{TomlNames.Shown(TomlNames.Text(pair.Key))} stands outside of every section; {Right(sections)}");
        }

        var reader = new SectionReader(sections, name => NoSection(name, sections), Nearest, given, places, mistakes);
        foreach (TableSyntaxBase table in document.Tables)
        {
            reader.Read(table);
        }

        mistakes.ThrowIfAny();
        return new SensorFile(fullPath, new ReferencedFile(path, Sha256Sum.Of(bytes)), given, places);
    }

    private static string NoSection(string name, string[] sections)
    {
        if (TimeLineTables.Find(name) is not null || AllKeys.Sections().Contains(name, StringComparer.Ordinal))
        {
            return $"[{name}] belongs into a scenario, not into a sensor file; {Right(sections)}";
        }

        return $"[{TomlNames.Shown(name)}] is no section of a sensor; the nearest is [{NearestName.Find(name, sections)}]";
    }

    private static string Right(string[] sections) => $"a sensor file holds [{string.Join("], [", sections)}]";

    // In the same section if it has any: a key of the body would be no help.
    private static KeyDefinition Nearest(string name)
    {
        string section = name[..name.IndexOf('.', StringComparison.Ordinal)];
        string nearest = NearestName.Find(name, SensorKeys.OfAFile.Where(k => k.Section == section).Select(k => k.Name));
        return SensorKeys.OfAFile.First(k => k.Name == nearest);
    }
}
