// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Studies.Vectors.Verifying;

namespace SensorSim.Cli.Commands;

/// <summary><c>vectors verify</c>: looks at every file of a set by its sum, and makes everything but the pictures again.</summary>
internal static class VectorsVerifyCommand
{
    private const int MostSaid = 20;

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var set = new Argument<string>("DIR") { Description = "Folder of a vector set" };
        Option<bool> json = CommonOptions.Json();
        var command = new Command("verify", "Check every file of a set, make it again from its own plan and compare bit for bit.") { set, json };
        command.SetAction(parsed => Verify(terminal, parsed.GetRequiredValue(set), parsed.GetValue(json), cancellation));
        return command;
    }

    private static int Verify(Terminal terminal, string folder, bool isJson, CancellationToken cancellation)
    {
        SetVerification verified = SetVerifier.Verify(folder, cancellation);
        if (isJson)
        {
            VectorsTable.Write(terminal.OutStream, folder, verified);
        }
        else
        {
            VectorsTable.Print(terminal, folder, verified);
        }

        foreach (SetFinding finding in verified.Findings.Take(MostSaid))
        {
            terminal.Say($"{Path.Combine(folder, finding.Path)}: {finding.Sentence}");
        }

        if (verified.Findings.Count > MostSaid)
        {
            terminal.Say(FormattableString.Invariant($"and {verified.Findings.Count - MostSaid} more findings; --json lists all"));
        }

        // A set of another version has said so already.
        if (!verified.IsSound && verified.WhyNotMade.Length > 0 && verified.Findings.All(f => f.Kind != FindingKind.OtherVersion))
        {
            terminal.Say($"nothing was made again: {verified.WhyNotMade}");
        }

        return verified.IsSound ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
