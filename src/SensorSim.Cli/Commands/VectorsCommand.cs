// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;

namespace SensorSim.Cli.Commands;

/// <summary><c>vectors</c>: known-answer sets; each thing that is done with one is a verb of its own.</summary>
internal static class VectorsCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var command = new Command("vectors", "Make known-answer sets and their samples, verify them, and hold answers against them.");
        command.Subcommands.Add(VectorsMakeCommand.Create(terminal, cancellation));
        command.Subcommands.Add(VectorsVerifyCommand.Create(terminal, cancellation));
        command.Subcommands.Add(VectorsCompareCommand.Create(terminal, cancellation));
        command.Subcommands.Add(VectorsStimulusCommand.Create(terminal, cancellation));
        command.SetAction(NeedsVerb);
        return command;

        int NeedsVerb(ParseResult parsed) => throw new UsageException($"vectors needs a verb: {string.Join(", ", command.Subcommands.Select(c => c.Name))}");
    }
}
