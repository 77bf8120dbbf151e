// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Cli.SelfTests;
using SensorSim.Files.Output;

namespace SensorSim.Cli.Commands;

/// <summary><c>selftest</c>: does the command work on this machine as it did where it was made: an installation check.</summary>
internal static class SelfTestCommand
{
    private const string ShippedFolder = "vectors";

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        Option<string?> vectors = new("--vectors")
        {
            Description = "Vector set to check in place of the one that came with the command",
            HelpName = "DIR",
        };
        Option<string?> outFolder = CommonOptions.Out("Folder for selftest.json and selftest.md");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("selftest", "Check the installation: known answers, codecs, the vector set that came with it, files.") { vectors, outFolder, json };
        command.SetAction(parsed => Run(terminal, parsed.GetValue(vectors), parsed.GetValue(outFolder), parsed.GetValue(json), cancellation));
        return command;
    }

    private static int Run(Terminal terminal, string? vectors, string? outPath, bool isJson, CancellationToken cancellation)
    {
        string program = AppContext.BaseDirectory;
        if (vectors is not null && !Directory.Exists(vectors))
        {
            throw new UsageException($"--vectors {vectors}: there is no such folder; name one that vectors make wrote, or leave the option out");
        }

        using OutputFolder? folder = outPath is null ? null : OutputPlace.Open(outPath);
        IReadOnlyList<CheckOutcome> outcomes = SelfTest.Run(InstallationChecks.All(program, vectors ?? Path.Combine(program, ShippedFolder), vectors is null, outPath, cancellation), cancellation);
        if (folder is not null)
        {
            using (Stream file = folder.CreateFile("selftest.json"))
            {
                SelfTestReport.WriteJson(file, outcomes, program);
            }

            using (Stream file = folder.CreateFile("selftest.md"))
            {
                SelfTestReport.WriteMarkdown(file, outcomes, program);
            }

            folder.Commit();
            terminal.Say($"files written to {outPath}");
        }

        if (isJson)
        {
            SelfTestReport.WriteJson(terminal.OutStream, outcomes, program);
        }
        else
        {
            SelfTestReport.Print(terminal.Out, outcomes);
        }

        return outcomes.All(o => o.HasPassed) ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
