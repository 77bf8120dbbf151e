// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Scenarios;
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

        // That a set is of another version explains much of the rest, so it comes first and is never among those that are left out.
        foreach (SetFinding finding in verified.Findings.OrderBy(f => f.Kind != FindingKind.OtherVersion).Take(MostSaid))
        {
            terminal.Say($"{Path.Combine(folder, finding.Path)}: {finding.Sentence}");
        }

        if (verified.Findings.Count > MostSaid)
        {
            terminal.Say(FormattableString.Invariant($"and {verified.Findings.Count - MostSaid} more findings; --json lists all"));
        }

        // Of another generator's set this has been said already; of another detector's all but the answers would have been made.
        bool isSaid = verified.Findings.Any(f => f.Kind == FindingKind.OtherVersion) && verified.Manifest?.GeneratorVersion != Scenario.GeneratorVersion;
        if (!verified.IsSound && verified.WhyNotMade.Length > 0 && !isSaid)
        {
            terminal.Say($"nothing was made again: {verified.WhyNotMade}");
        }

        return verified.IsSound ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
