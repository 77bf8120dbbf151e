// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Cli.Commands;

/// <summary><c>vectors stimulus</c>: makes the samples of a set's cases, also where the set ships none, and checks their sums.</summary>
internal static class VectorsStimulusCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var set = new Argument<string>("DIR") { Description = "Folder of a vector set" };
        var only = new Option<string?>("--case") { Description = "One case; all of them unless given", HelpName = "NAME" };
        Option<string?> outFolder = CommonOptions.Out("Folder for the samples: a folder for each case");
        outFolder.Required = true;
        Option<bool> json = CommonOptions.Json();
        var command = new Command("stimulus", "Make the samples of the cases of a set, raw and as BDF+, and check them against the manifest.") { set, only, outFolder, json };
        command.SetAction(parsed => Make(
            terminal, parsed.GetRequiredValue(set), parsed.GetValue(only), parsed.GetRequiredValue(outFolder)!, parsed.GetValue(json), cancellation));
        return command;
    }

    private static int Make(Terminal terminal, string path, string? only, string outPath, bool isJson, CancellationToken cancellation)
    {
        VectorsPlaces.MustLieOutside(path, outPath);
        var set = VectorSet.Open(path);
        if (!set.CanBeMadeHere)
        {
            throw new UsageException(FormattableString.Invariant(
                $"the set was made by generator version {set.Manifest.GeneratorVersion}, whose samples this program cannot make; use the version of the program that made it"));
        }

        SetCase[] cases = [.. set.Cases.Where(c => only is null || c.Name == only)];
        if (cases.Length == 0)
        {
            throw new UsageException($"{only} is no case of the set; the nearest is {NearestName.Find(only ?? "", set.Cases.Select(c => c.Name))}");
        }

        var made = new List<(string Name, string Sha256, bool IsRight)>();
        using OutputFolder folder = OutputPlace.Open(outPath);
        foreach (SetCase one in cases)
        {
            (string sum, string whyNoBdf) = StimulusMaker.Make(one, folder, cancellation);
            made.Add((one.Name, sum, sum == one.Facts.Sums.Stimulus));
            if (whyNoBdf.Length > 0)
            {
                terminal.Say($"{one.Name}: raw numbers only: {whyNoBdf}");
            }
        }

        folder.Commit();
        bool isRight = made.All(m => m.IsRight);
        if (isJson)
        {
            CountsJson.Write(terminal.OutStream, [("set", path)], [("case_count", made.Count)], marks: null, json =>
            {
                json.WriteStartArray("cases");
                foreach ((string name, string sum, bool right) in made)
                {
                    json.WriteStartObject();
                    json.WriteString("name", name);
                    json.WriteString("stimulus_sha256", sum);
                    json.WriteBoolean("is_as_in_manifest", right);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            });
        }
        else
        {
            PlainTables.Print(terminal.Out, ["case", "stimulus sha256", "manifest"], made.Select(m => new[] { m.Name, m.Sha256, m.IsRight ? "same" : "other" }));
        }

        foreach ((string name, _, _) in made.Where(m => !m.IsRight))
        {
            terminal.Say($"{name}: the samples are not those of the set: their sum is not the manifest's");
        }

        terminal.Say($"files written to {outPath}");
        return isRight ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
