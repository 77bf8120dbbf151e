// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Reports.Figures;
using SensorSim.Reports.Vectors;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Cli.Commands;

/// <summary><c>vectors make</c>: plan → set, unless the library's own answers miss what is asked.</summary>
internal static class VectorsMakeCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var plan = new Argument<string>("PLAN") { Description = "Vector plan (TOML), or the folder of a set, which is made again from its own plan" };
        Option<string?> outFolder = CommonOptions.Out("Folder for the set; a set that lies there is replaced");
        outFolder.Required = true;
        Option<bool> json = CommonOptions.Json();
        var command = new Command("make", "Make the set of a plan: samples, truth, acceptance, expected answers, C headers, pictures.") { plan, outFolder, json };
        command.SetAction(parsed => Make(terminal, parsed.GetRequiredValue(plan), parsed.GetRequiredValue(outFolder)!, parsed.GetValue(json), cancellation));
        return command;
    }

    private static int Make(Terminal terminal, string planPath, string outPath, bool isJson, CancellationToken cancellation)
    {
        SetPlan plan = SetPlan.Read(planPath);
        SetPlace place = SetPlace.Look(outPath, plan);
        Task warmUp = Task.Run(FigureWarmUp.Run, cancellation);
        using OutputFolder folder = OutputPlace.Open(outPath);
        warmUp.GetAwaiter().GetResult();
        MadeSet made = SetMaker.Make(plan, folder, CasePictures.Png, cancellation);
        bool isSound = made.Faults.Count == 0;
        if (isSound)
        {
            folder.Commit();
            place.RemoveOld(made.Manifest);
        }

        if (isJson)
        {
            CountsJson.Write(
                terminal.OutStream,
                [("plan", planPath), ("detector", made.Manifest.Detector)],
                [("generator_version", made.Manifest.GeneratorVersion), ("case_count", made.Cases.Count), ("file_count", made.Manifest.Files.Count), ("byte_count", made.Manifest.Files.Sum(f => f.Bytes))],
                marks: null,
                json =>
                {
                    json.WriteBoolean("was_written", isSound);
                    VectorsTable.WriteList(json, "faults", made.Faults);
                    VectorsTable.WriteList(json, "past_deviations", made.PastDeviations);
                    VectorsTable.WriteSums(json, made.Manifest.Cases.Select(c => (c.Name, c.Sums)));
                });
        }
        else
        {
            VectorsTable.Print(terminal, made);
        }

        foreach (string past in made.PastDeviations)
        {
            terminal.Say($"{past}; take it out of the plan");
        }

        foreach (string fault in made.Faults)
        {
            terminal.Say(fault);
        }

        terminal.Say(isSound
            ? FormattableString.Invariant($"{made.Manifest.Files.Count + 2} files written to {outPath}")
            : "nothing was written; where the library is known to miss a requirement, say so in the plan with [[case.deviation]] and a reason");
        return isSound ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
