// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.CommandLine.Parsing;
using SensorSim.Cli.Output;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli.Options;

/// <summary>Says in our words what is wrong with a command line, and what would be right.</summary>
internal static class UsageErrors
{
    private const string VersionName = "--version";

    /// <summary>One sentence for each mistake; none when the command line is right.</summary>
    /// <param name="parsed">What the parser made of it.</param>
    public static IReadOnlyList<string> Sentences(ParseResult parsed)
    {
        CommandResult at = parsed.CommandResult;
        Command command = at.Command;
        if (parsed.Action is HelpText.AllVersions)
        {
            string? other = parsed.Tokens.Select(t => t.Value).FirstOrDefault(t => t != VersionName);
            return other is null ? [] : [$"{other} is one word too many: {VersionName} stands alone"];
        }

        if (command is RootCommand)
        {
            return parsed.Errors.Count == 0 ? [] : [NoVerb(parsed, command)];
        }

        string[] unknown = [.. Words(parsed).Where(IsUnknownOption)];
        if (unknown.Length > 0)
        {
            return [.. unknown.Select(word => NoOption(word, command))];
        }

        Argument[] missing = [.. command.Arguments.Where(a => a.Arity.MinimumNumberOfValues > 0 && parsed.GetResult(a) is not { Tokens.Count: > 0 })];
        if (missing.Length > 0)
        {
            return [.. missing.Select(a => $"{command.Name} needs {a.Name}: {a.Description}")];
        }

        if (parsed.UnmatchedTokens.Count > 0 && command.Arguments.Count == 0 && command.Subcommands.Count > 0)
        {
            return [NoSubverb(parsed.UnmatchedTokens[0], command)];
        }

        if (parsed.UnmatchedTokens.Count > 0)
        {
            return [$"{parsed.UnmatchedTokens[0]} is one word too many for {command.Name}"];
        }

        string[] empty = [.. command.Arguments.Where(a => parsed.GetResult(a) is { Tokens: [{ Value: "" }, ..] }).Select(a => a.Name)
            .Concat(command.Options.Where(o => parsed.GetResult(o) is { Tokens: [{ Value: "" }, ..] }).Select(o => o.Name))];
        return empty.Length > 0
            ? [.. empty.Select(name => $"{name} is empty; {command.Name} needs a value there")]
            : [.. parsed.Errors.Select(e => string.Join(' ', e.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))];
    }

    private static string NoVerb(ParseResult parsed, Command root)
    {
        string[] verbs = [.. root.Subcommands.Select(c => c.Name)];
        string list = $"the verbs are {string.Join(", ", verbs)}";
        string? word = parsed.UnmatchedTokens.Count > 0 ? parsed.UnmatchedTokens[0] : null;
        return word is null ? $"give a verb; {list}"
            : word.StartsWith('-') ? $"{word} is no option here; give a verb first; {list}"
            : $"{word} is no verb; the nearest is {NearestName.Find(word, verbs)}; {list}";
    }

    private static string NoSubverb(string word, Command command)
    {
        string[] verbs = [.. command.Subcommands.Select(c => c.Name)];
        return $"{word} is no verb of {command.Name}; the nearest is {NearestName.Find(word, verbs)} of {string.Join(", ", verbs)}";
    }

    private static string NoOption(string word, Command command)
    {
        string name = word.Split('=')[0];
        if (command.Options.Count == 0)
        {
            return $"{name} is no option of {command.Name}; give one of its verbs first: {string.Join(", ", command.Subcommands.Select(c => c.Name))}";
        }

        return $"{name} is no option of {command.Name}; the nearest is {NearestName.Find(name, command.Options.Select(o => o.Name))}";
    }

    // Words that the parser took for arguments, and those that it had no place for.
    private static IEnumerable<string> Words(ParseResult parsed) => parsed.CommandResult.Command.Arguments
        .SelectMany(a => parsed.GetResult(a)?.Tokens.Select(t => t.Value) ?? [])
        .Concat(parsed.UnmatchedTokens);

    private static bool IsUnknownOption(string word) => word.Length > 1 && word[0] == '-' && !Path.Exists(word);
}
