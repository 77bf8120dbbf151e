// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.CommandLine.Parsing;
using SensorSim.Cli.Commands;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli;

/// <summary>The command: parses, calls, and turns what goes wrong into one sentence and an exit code.</summary>
public static class App
{
    private const int MostMistakesShown = 3;

    // In the order of the help.
    private static readonly (string Name, Func<Terminal, CancellationToken, Command> Create)[] s_verbs =
    [
        ("run", RunCommand.Create),
        ("record", RecordCommand.Create),
        ("replay", ReplayCommand.Create),
        ("detect", DetectCommand.Create),
        ("score", (terminal, _) => ScoreCommand.Create(terminal)),
        ("sweep", SweepCommand.Create),
        ("compare", (terminal, _) => CompareCommand.Create(terminal)),
        ("challenge", ChallengeCommand.Create),
        ("vectors", VectorsCommand.Create),
        ("selftest", SelfTestCommand.Create),
        ("schema", (terminal, _) => SchemaCommand.Create(terminal)),
        ("explain", (terminal, _) => ExplainCommand.Create(terminal)),
    ];

    // A word that begins with @ is a file name like any other.
    private static readonly ParserConfiguration s_parsing = new() { ResponseFileTokenReplacer = null };

    /// <summary>Runs the command.</summary>
    /// <param name="args">Command line.</param>
    /// <param name="terminal">Where results and messages go.</param>
    /// <param name="cancellation">Set when the user interrupts.</param>
    /// <returns>Exit code, see <see cref="ExitCodes"/>.</returns>
    public static int Run(string[] args, Terminal terminal, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(terminal);
        int code = Answer(args, terminal, cancellation);
        foreach (string complaint in GuestCode.TakeComplaints())
        {
            // Found when the verdict was already given: the results stand, the success does not.
            terminal.Say(complaint);
            code = code == ExitCodes.Done ? ExitCodes.NotMet : code;
        }

        return code;
    }

    private static int Answer(string[] args, Terminal terminal, CancellationToken cancellation)
    {
        RootCommand root = Root(args, terminal, cancellation);
        ParseResult parsed = root.Parse(args, s_parsing);
        if (parsed.Action is not HelpText.WithExamples)
        {
            IReadOnlyList<string> mistakes = UsageErrors.Sentences(parsed);
            foreach (string mistake in mistakes.Take(MostMistakesShown))
            {
                terminal.Say(mistake);
            }

            if (mistakes.Count > 0)
            {
                terminal.Say($"try: sensorsim {HelpPath(parsed)}--help");
                return ExitCodes.WrongInput;
            }
        }

        try
        {
            var configuration = new InvocationConfiguration
            {
                EnableDefaultExceptionHandler = false,
                ProcessTerminationTimeout = null,
                Output = terminal.Out,
                Error = terminal.Error,
            };
            return parsed.Invoke(configuration);
        }
        catch (ScenarioException e)
        {
            foreach (ScenarioMistake mistake in e.Mistakes.Take(MostMistakesShown))
            {
                terminal.Say(mistake.ToString());
            }

            return ExitCodes.WrongInput;
        }
        catch (Exception e) when (e is InputFileException or UsageException or NotSupportedException)
        {
            terminal.Say(OneLine.Of(e.Message));
            return ExitCodes.WrongInput;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            terminal.Say(OneLine.Of(e.Message));
            return ExitCodes.EnvironmentFailed;
        }
        catch (OperationCanceledException)
        {
            terminal.Say("interrupted; nothing was written");
            return ExitCodes.Interrupted;
        }
    }

    // A verb that is asked for is the only one that is made: the others would take longer than many a run.
    private static RootCommand Root(string[] args, Terminal terminal, CancellationToken cancellation)
    {
        var root = new RootCommand("Makes the signals of a wearable sensor with exact truth, runs a detector on them and scores its answers.");
        bool isAsked = args.Length > 0 && s_verbs.Any(v => v.Name == args[0]);
        foreach ((string name, Func<Terminal, CancellationToken, Command> create) in s_verbs)
        {
            if (!isAsked || name == args[0])
            {
                root.Subcommands.Add(create(terminal, cancellation));
            }
        }

        HelpText.Install(root, terminal);
        return root;
    }

    private static string HelpPath(ParseResult parsed)
    {
        string path = "";
        for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: not RootCommand } verb; at = at.Parent)
        {
            path = $"{verb.Command.Name} {path}";
        }

        return path;
    }
}
