// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Globalization;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Files.Output;
using SensorSim.Reports.StudyReports;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Comparisons;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Cli.Commands;

/// <summary><c>sweep</c>: study → every run of it → rows, figures, failure points; goes on where it was interrupted.</summary>
internal static class SweepCommand
{
    private const int MostWorkers = 1024;

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        Argument<string> study = Study();
        Option<string?> outFolder = CommonOptions.Out("Folder for report.html, runs.parquet, runs.csv, summary.json and failure_points.csv; an interrupted sweep goes on there");
        Option<long?> workers = NumberOption.Whole("--workers", "Runs at a time, and parts of what follows them; one for each core unless given", 1, MostWorkers);
        Option<string?> shard = new("--shard")
        {
            Description = "Make only part I of N of the runs, for one of N machines; sweep merge joins the parts",
            HelpName = "I/N",
        };
        Option<bool> json = CommonOptions.Json();
        var command = new Command("sweep", "Make every run of a study, score them and find failure points.") { study, outFolder, workers, shard, json };
        command.Subcommands.Add(SweepMergeCommand.Create(terminal, cancellation));
        command.Subcommands.Add(SubmitCommand.Create(terminal, cancellation));
        command.SetAction(parsed => Sweep(
            terminal,
            parsed.GetRequiredValue(study),
            parsed.GetValue(outFolder),
            (int)(parsed.GetValue(workers) ?? Environment.ProcessorCount),
            ShardOf(parsed.GetValue(shard)),
            parsed.GetValue(json),
            cancellation));
        return command;
    }

    /// <summary>The argument that names the study.</summary>
    public static Argument<string> Study() => new("STUDY") { Description = "Study file (TOML)" };

    /// <summary>The folder that must be given.</summary>
    /// <exception cref="UsageException">It was not.</exception>
    public static string OutOf(string? path) => string.IsNullOrWhiteSpace(path)
        ? throw new UsageException("--out must name a folder, for example --out out/study: a study's rows are kept there as they come")
        : path;

    /// <summary>Refuses to cut a study into parts whose runs depend on each other.</summary>
    /// <exception cref="UsageException">It is such a study.</exception>
    public static void RefuseToCut(StudyPlan plan)
    {
        if (plan.FailurePoint.IsAdaptive || plan.Tuning is not null)
        {
            throw new UsageException("an adaptive study or one with [tuning] cannot be cut into shards: which run is next depends on all before it; sweep it on one machine");
        }
    }

    private static Shard ShardOf(string? text) =>
        text is null ? Shard.Whole
        : Shard.TryParse(text, out Shard shard) ? shard
        : throw new UsageException($"--shard {text} must be I/N with 1 <= I <= N <= {Shard.Most}, for example 2/3");

    private static int Sweep(Terminal terminal, string study, string? outPath, int workers, Shard shard, bool isJson, CancellationToken cancellation)
    {
        string path = OutOf(outPath);
        StudyPlan plan = PlanReader.ReadFile(study);
        using var detectors = new OpenDetectors(plan);
        plan = PlanReader.CheckConstants(plan, detectors.Factories);
        if (!shard.IsWhole)
        {
            RefuseToCut(plan);
        }

        StudyIdentity identity = StudyIdentity.Of(plan, detectors.Factories);
        using SweepFolder folder = SweepFolder.Open(path, identity, shard);
        if (folder.IsFinished)
        {
            return AnswerAgain(terminal, path, identity, workers, isJson);
        }

        Notices.Tell(terminal, [.. folder.Found.Length > 0 ? new[] { folder.Found } : [], .. StudyNotices.Of(plan)]);
        try
        {
            // The plotting library takes its time to load: let it do so beside the first runs, unless cores are to be left alone.
            Task warmUp = shard.IsWhole && workers >= Environment.ProcessorCount ? Task.Run(StudyReport.WarmUp, cancellation) : Task.CompletedTask;
            using var progress = new SweepProgressLine(terminal);
            var session = new SweepSession(folder, detectors.Factories, workers) { Say = terminal.Say, Progress = progress.Report };
            if (!shard.IsWhole)
            {
                int count = session.RunShard(plan, shard, cancellation);
                progress.Clear();
                terminal.Out.WriteLine($"shard {shard} is complete: {Plural.Of(count, "run")} in {path}; sweep merge joins the shards");
                return ExitCodes.Done;
            }

            SweepResults results = session.Run(plan, identity, cancellation);
            progress.Clear();
            warmUp.GetAwaiter().GetResult();
            string table = Write(terminal, path, results, detectors, workers, isJson, cancellation);
            folder.RemoveJournals();
            return Answer(terminal, path, results, table, isJson);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            terminal.Say(folder.RowCount == 0
                ? "interrupted; nothing was written"
                : $"interrupted; {folder.RowCount} {(folder.RowCount == 1 ? "run is" : "runs are")} kept in {path}, and the same command goes on from there");
            return ExitCodes.Interrupted;
        }
    }

    /// <summary>Writes the files of a study, all of them or none, on so many cores.</summary>
    /// <returns>What is to be printed; empty when that is JSON.</returns>
    public static string Write(
        Terminal terminal, string path, SweepResults results, OpenDetectors detectors, int workers, bool isJson, CancellationToken cancellation) =>
        SideBySide.Within(workers, () => WriteFiles(terminal, path, results, detectors, isJson, cancellation));

    private static string WriteFiles(Terminal terminal, string path, SweepResults results, OpenDetectors detectors, bool isJson, CancellationToken cancellation)
    {
        using OutputFolder folder = OutputPlace.Open(path);
        var files = new SweepFiles(folder, results);
        var pages = new StudyPages(results, detectors.Factories, cancellation);
        using var table = new StringWriter(CultureInfo.InvariantCulture) { NewLine = terminal.Out.NewLine };

        // The failure points are there already: their searches take all workers, and amid other new code the runtime would leave their loops slow for longer.
        // First what needs nothing but the rows, then what is made of it.
        SideBySide.Do(cancellation, pages.FindWorstCases, pages.FindAgreement, files.WriteRunsParquet, files.WriteRunsCsv);
        Action print = isJson ? () => { } : () => SweepTable.Print(table, results);
        SideBySide.Do(cancellation, () => pages.Write(folder.PathOf), files.WriteSummary, print);
        folder.Commit();
        terminal.Say($"files written to {path}");
        return table.ToString();
    }

    /// <summary>Prints what a study came to: the table that <see cref="Write"/> gave, or the document.</summary>
    public static int Answer(Terminal terminal, string path, SweepResults results, string table, bool isJson)
    {
        if (isJson)
        {
            return Document(terminal, path);
        }

        terminal.Out.Write(table);
        return results.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }

    /// <summary>Says that the study was finished before, and prints what it came to: the table from the rows in the folder, or the document.</summary>
    /// <exception cref="InputFileException">The rows cannot be read.</exception>
    public static int AnswerAgain(Terminal terminal, string path, StudyIdentity identity, int workers, bool isJson)
    {
        // Read before anything is said: of files that are damaged it is not true that nothing was to be done.
        FinishedSweep finished = FinishedSweep.Read(path);
        terminal.Say($"{path} holds the finished results of this very study; nothing was to be done");
        if (isJson)
        {
            return Document(terminal, path);
        }

        Notices.Tell(terminal, finished.Summary.Notices);
        SweepResults results = SideBySide.Within(workers, () => new SweepResults(finished.Results, identity) { Tuned = finished.Summary.Tuned });
        SweepTable.Print(terminal.Out, results);
        return results.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }

    // The document that lies in the folder is the answer: the same bytes, whether the study was finished now or long ago.
    private static int Document(Terminal terminal, string path)
    {
        byte[] summary = File.ReadAllBytes(Path.Combine(path, SweepFiles.Summary));
        terminal.OutStream.Write(summary);
        return SweepJson.IsMet(summary) ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
