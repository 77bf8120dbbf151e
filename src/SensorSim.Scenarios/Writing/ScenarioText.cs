// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Writing;

/// <summary>Writes a scenario back to TOML: read again, it makes the same stream to the bit.</summary>
/// <remarks>
/// Written are all keys that the text or its own values set, section by section in the order of <see cref="AllKeys"/>; the seed; the seed of a
/// drawn person; then the time line as it stands. Comments of the text between keys are not kept. Paths lead from the new folder
/// to the same files.
/// </remarks>
public static class ScenarioText
{
    /// <summary>The text of a scenario.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="folder">Folder that the text is meant for; files that it names are found from there.</param>
    /// <param name="comments">Lines for its head, without the number sign.</param>
    /// <returns>TOML, each line ended by a line feed.</returns>
    /// <exception cref="NotSupportedException">The path from there to a file is longer than its key allows, or the seed too large for a scenario.</exception>
    public static string Write(Scenario scenario, string folder, IEnumerable<string>? comments = null)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentException.ThrowIfNullOrEmpty(folder);
        var text = new StringBuilder();
        foreach (string comment in comments ?? [])
        {
            Line(text, $"# {TomlNames.WithoutControls(comment)}".TrimEnd());
        }

        string section = "";
        foreach (KeyDefinition key in AllKeys.List())
        {
            if (Value(scenario, key, folder) is not string value)
            {
                continue;
            }

            if (key.Section != section)
            {
                Line(text, text.Length == 0 ? $"[{key.Section}]" : $"\n[{key.Section}]");
                section = key.Section;
            }

            Line(text, $"{key.Key} = {value}");
        }

        WriteTimeLine(text, scenario);
        return text.ToString();
    }

    private static string? Value(Scenario scenario, KeyDefinition key, string folder)
    {
        KeyValues given = scenario.Draft.Given;
        if (key == ScenarioKeys.Seed)
        {
            return scenario.Seed <= (ulong)ScenarioKeys.Seed.Maximum
                ? Number(ScenarioKeys.Seed, scenario.Seed)
                : throw new NotSupportedException($"The seed {scenario.Seed} is larger than a scenario can hold, {ScenarioKeys.Seed.RangeText}.");
        }

        if (key == SubjectDrawKeys.Seed)
        {
            return scenario.Subject is DrawnSubject subject ? Number(SubjectDrawKeys.Seed, subject.Seed) : null;
        }

        if (key == ScenarioKeys.Sensor)
        {
            return scenario.Draft.Sensor is Sensors.SensorFile sensor ? Quoted(PathFrom(folder, sensor.FullPath, ScenarioKeys.Sensor)) : null;
        }

        if (!given.IsSet(key))
        {
            return null;
        }

        return key switch
        {
            NumberKey number => Number(number, given[number]),
            ChoiceKey choice => Quoted(given[choice]),
            TextKey file when NamesFile(file) =>
                Quoted(PathFrom(folder, Path.Combine(Path.GetDirectoryName(scenario.File) ?? "", given[file]), file)),
            TextKey line => Quoted(given[line]),
            _ => throw new InvalidOperationException($"{key.Name} is of no known kind."),
        };
    }

    private static bool NamesFile(TextKey key) => key == HeartKeys.BeatsFile || Recordings.Recordings.Keys.Any(r => r.File == key);

    private static string PathFrom(string folder, string file, TextKey key)
    {
        string path = Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(file)).Replace('\\', '/');
        return path.Length <= key.MaximumLength ? path : throw new NotSupportedException(
            $"{folder}: from there the path to {file} has more than {key.MaximumLength} characters, which {key.Name} cannot hold; choose a folder nearer to it.");
    }

    private static string Number(NumberKey key, double value) => key.IsWhole
        ? ((long)value).ToString(CultureInfo.InvariantCulture)
        : value.ToString("R", CultureInfo.InvariantCulture);

    private static string Quoted(string text) =>
        $"\"{text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";

    private static void WriteTimeLine(StringBuilder text, Scenario scenario)
    {
        DocumentSyntax document = TomlText.Parse(scenario.Text, scenario.File, new MistakeList(scenario.File));
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (TimeLineTables.Find(TomlNames.Text(table.Name)) is not TimeLineTable known
                || (known == TimeLineTables.OfSetting && scenario.SettingsInPlace is not null))
            {
                continue;
            }

            Line(text, $"\n[[{known.Name}]]");
            foreach (KeyValueSyntax pair in table.Items)
            {
                Line(text, Verbatim(scenario.Text, pair));
            }
        }

        foreach (SettingChange change in scenario.SettingsInPlace?.Changes ?? [])
        {
            Line(text, $"\n[[{TimeLineTables.OfSetting.Name}]]");
            Line(text, FormattableString.Invariant($"{TimeLineTables.At} = {change.EffectiveNs / 1e9:R}"));
            Line(text, $"{TimeLineTables.Channel} = {Quoted(change.Channel.Text())}");
            Line(text, $"{TimeLineTables.Setting} = {Quoted(change.Setting.Text())}");
            Line(text, FormattableString.Invariant($"{TimeLineTables.Value} = {change.Value:R}"));
        }
    }

    // As it stands in the text, a list over several lines too; without the comment that may follow.
    private static string Verbatim(string text, KeyValueSyntax pair)
    {
        int begin = pair.Key!.Span.Start.Offset;
        int end = pair.Value!.Span.End.Offset;
        return text[begin..(end + 1)].ReplaceLineEndings("\n");
    }

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');
}
