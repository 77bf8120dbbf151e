// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Checks;
using SensorSim.Signals.Keys;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Reads a scenario from TOML and reports every mistake with its place.</summary>
public static class ScenarioReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ScenarioException">The file is missing, unreadable or holds mistakes.</exception>
    public static Scenario ReadFile(string path)
    {
        string text;
        try
        {
            text = File.ReadAllText(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            string why = e is FileNotFoundException or DirectoryNotFoundException
                ? "there is no such file; give the path of a scenario (TOML)"
                : $"cannot be read: {FirstLine(e.Message)}";
            throw new ScenarioException([new ScenarioMistake(path, 0, 0, why)]);
        }

        return ReadText(text, path);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The TOML text.</param>
    /// <param name="file">Name of its file, for messages.</param>
    /// <exception cref="ScenarioException">The text holds mistakes.</exception>
    public static Scenario ReadText(string text, string file)
    {
        DocumentSyntax document = SyntaxParser.Parse(text, file, validate: true);
        var mistakes = new MistakeList(file);
        if (document.HasErrors)
        {
            foreach (DiagnosticMessage message in document.Diagnostics)
            {
                mistakes.Add(message.Span, FirstLine(message.Message));
            }

            throw mistakes.ToException();
        }

        var values = new KeyValues();
        var places = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        foreach (KeyValueSyntax pair in document.KeyValues)
        {
            mistakes.Add(pair.Span, $"{KeyText(pair)} stands outside of every section; put it under one of [{string.Join("], [", AllKeys.Sections())}]");
        }

        foreach (TableSyntaxBase table in document.Tables)
        {
            ReadTable(table, values, places, mistakes);
        }

        ScenarioChecks.Check(values, (key, message) => mistakes.Add(places.TryGetValue(key.Name, out SourceSpan span) ? span : null, message));
        mistakes.ThrowIfAny();
        return new Scenario(values, text, file);
    }

    private static void ReadTable(TableSyntaxBase table, KeyValues values, Dictionary<string, SourceSpan> places, MistakeList mistakes)
    {
        string section = table.Name?.ToString().Trim() ?? "";
        if (table is TableArraySyntax)
        {
            mistakes.Add(table.Span, $"[[{section}]] is a list of sections; a section stands once: [{section}]");
            return;
        }

        IReadOnlyList<string> sections = AllKeys.Sections();
        if (!sections.Contains(section, StringComparer.Ordinal))
        {
            mistakes.Add(table.Name!.Span, $"[{section}] is no section; the nearest is [{NearestName.Find(section, sections)}]");
            return;
        }

        foreach (KeyValueSyntax pair in table.Items)
        {
            string name = $"{section}.{KeyText(pair)}";
            KeyDefinition? key = AllKeys.Find(name);
            if (key is null)
            {
                string nearest = NearestName.Find(name, AllKeys.List().Select(k => k.Name));
                mistakes.Add(pair.Key!.Span, $"{name} is no key; the nearest is {nearest}");
                continue;
            }

            places[name] = pair.Value!.Span;
            ValueReader.Read(key, pair.Value!, values, mistakes);
        }
    }

    private static string KeyText(KeyValueSyntax pair) => pair.Key?.ToString().Trim() ?? "";

    private static string FirstLine(string text)
    {
        int end = text.AsSpan().IndexOfAny('\r', '\n');
        return end < 0 ? text : text[..end];
    }
}
