// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Cli.Commands;

/// <summary><c>sweep merge</c>: joins the parts that <c>sweep --shard</c> made, to the very files of a sweep on one machine.</summary>
internal static class SweepMergeCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        Argument<string> study = SweepCommand.Study();
        Argument<string[]> folders = new("DIR") { Description = "Folders of the shards, in any order", Arity = ArgumentArity.OneOrMore };
        Option<string?> outFolder = CommonOptions.Out("Folder for report.html, runs.parquet, runs.csv, summary.json and failure_points.csv");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("merge", "Join the shards of a study that several machines made.") { study, folders, outFolder, json };
        command.SetAction(parsed => Merge(
            terminal, parsed.GetRequiredValue(study), parsed.GetRequiredValue(folders), parsed.GetValue(outFolder), parsed.GetValue(json), cancellation));
        return command;
    }

    private static int Merge(Terminal terminal, string study, string[] folders, string? outPath, bool isJson, CancellationToken cancellation)
    {
        string path = SweepCommand.OutOf(outPath);
        if (File.Exists(Path.Combine(path, SweepFolder.JournalName)))
        {
            throw new InputFileException(path, 0, 0, "a sweep was begun in this folder; give --out another one.");
        }

        StudyPlan plan = PlanReader.ReadFile(study);
        using var detectors = new OpenDetectors(plan);
        plan = PlanReader.CheckConstants(plan, detectors.Factories);
        StudyIdentity identity = StudyIdentity.Of(plan, detectors.Factories);
        using SweepFolder folder = SweepFolder.Open(path, identity, Shard.Whole);
        if (folder.IsFinished)
        {
            return SweepCommand.AnswerAgain(terminal, path, identity, Environment.ProcessorCount, isJson);
        }

        Notices.Tell(terminal, folder.Found.Length > 0 ? [folder.Found] : []);
        IReadOnlyList<RunRow> rows = ShardMerge.Read(folders, plan, identity);
        var results = new SweepResults(new StudyResults(plan, rows), identity) { Notices = StudyNotices.Of(plan) };
        Notices.Tell(terminal, results.Notices);
        string table = SweepCommand.Write(terminal, path, results, detectors, Environment.ProcessorCount, isJson, cancellation);
        return SweepCommand.Answer(terminal, path, results, table, isJson);
    }
}
