// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Reflection;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Cli.SelfTests;
using SensorSim.Files.Output;
using SensorSim.Studies.Installation;

namespace SensorSim.Cli.Commands;

/// <summary><c>selftest</c>: does the command work on this machine as it did where it was made: an installation check.</summary>
internal static class SelfTestCommand
{
    private const string ShippedFolder = "vectors";

    // The sum of the manifest of the shipped set, in the shape of sha256sum, as it was when the command was compiled: without it a set that somebody
    // else made consistently would pass.
    private const string BuiltWith = "vectors.manifest.sha256";

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
        Assembly command = typeof(App).Assembly;
        string set = vectors ?? Path.Combine(program, ShippedFolder);
        IReadOnlyList<Check> checks = InstallationChecks.All(program, command, set, vectors is null ? ShippedSum : null, LinkChecks.All(set), outPath, cancellation);
        IReadOnlyList<CheckOutcome> outcomes = SelfTest.Run(checks, cancellation);
        if (folder is not null)
        {
            using (Stream file = folder.CreateFile("selftest.json"))
            {
                InstallationReport.WriteJson(file, outcomes, program, command);
            }

            using (Stream file = folder.CreateFile("selftest.md"))
            {
                InstallationReport.WriteMarkdown(file, outcomes, program, command);
            }

            folder.Commit();
            terminal.Say($"files written to {outPath}");
        }

        if (isJson)
        {
            InstallationReport.WriteJson(terminal.OutStream, outcomes, program, command);
        }
        else
        {
            SelfTestTable.Print(terminal.Out, outcomes);
        }

        return outcomes.All(o => o.HasPassed) ? ExitCodes.Done : ExitCodes.NotMet;
    }

    private static string ShippedSum()
    {
        using Stream stream = typeof(App).Assembly.GetManifestResourceStream(BuiltWith)
            ?? throw new InvalidDataException("the command was built without a set of vectors");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd().Split(' ')[0];
    }
}
