// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>record</c>: scenario → recording, truth and acquisition; or a board's own samples → recording.</summary>
internal static class RecordCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var scenario = new Argument<string?>("SCENARIO") { Description = "Scenario file (TOML); none with --link", Arity = ArgumentArity.ZeroOrOne };
        LineOptions line = LineOptions.Create();
        Option<double?> duration = NumberOption.Real("--duration-s", "With --link: length of the recording [s]; until an interrupt unless given", 1, 3e7);
        Option<string?> outFolder = CommonOptions.Out("Folder for channels.csv, one CSV file per channel, and of a scenario truth.csv and acquisition.csv");
        outFolder.Required = true;
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        Option<string?> settings = CommonOptions.Settings();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("record", "Make a scenario's stream and store it with its truth, or store what a board samples.")
        {
            scenario, outFolder, seed, subjectSeed, sensor, settings, line.Link, line.Baud, line.RtsCts, duration, json,
        };
        command.SetAction(parsed =>
        {
            string? path = parsed.GetValue(scenario);
            double? seconds = parsed.GetValue(duration);
            string outPath = parsed.GetRequiredValue(outFolder)!;
            if (line.Read(parsed) is LineChoice board)
            {
                return path is null && parsed.GetValue(seed) is null && parsed.GetValue(subjectSeed) is null && parsed.GetValue(sensor) is null && parsed.GetValue(settings) is null
                    ? RecordBoard.Record(terminal, board, seconds, outPath, parsed.GetValue(json), cancellation)
                    : throw new UsageException("--link records what a board samples; a scenario and its --seed, --subject-seed, --sensor and --settings have no part in that, leave them out");
            }

            if (path is null)
            {
                throw new UsageException("record needs SCENARIO: Scenario file (TOML); or --link ADDRESS, to record what a board samples");
            }

            return seconds is null
                ? Record(
                    terminal,
                    ScenarioInput.Read(path, parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), parsed.GetValue(settings)),
                    outPath,
                    parsed.GetValue(json),
                    cancellation)
                : throw new UsageException("--duration-s is for a board; a scenario says its length itself, in scenario.duration_s");
        });
        return command;
    }

    private static int Record(Terminal terminal, Scenario scenario, string outPath, bool isJson, CancellationToken cancellation)
    {
        using OutputFolder folder = OutputPlace.Open(outPath);
        SensorStream stream = scenario.CreateStream();
        using var files = new FileSink(folder, stream.Format, withTruth: true, withDetections: false, withSamples: true);
        using var acquisition = new AcquisitionFile(folder.CreateFile("acquisition.csv"), scenario, stream.Format);
        using var progress = new Progress(terminal, stream.EndTick, stream.Format.Clock.TicksPerSecond);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector: null, scorer: null, files, acquisition).Run(progress.Report, cancellation);
        progress.Clear();
        files.Complete();
        acquisition.Complete();

        if (scenario.Subject is not null)
        {
            using Stream subject = folder.CreateFile("subject.json");
            SubjectJson.Write(subject, scenario.Subject);
        }

        folder.Commit();
        if (isJson)
        {
            CountsJson.Write(
                terminal.OutStream,
                [("scenario", scenario.File)],
                [("seed", scenario.Seed), ("generator_version", Scenario.GeneratorVersion), ("duration_s", scenario.DurationS), ("sample_count", outcome.SampleCount)],
                marks: null,
                json => SummaryJson.WriteIdentity(json, scenario.Subject, scenario.ReferencedFiles, scenario.SensorTitle));
        }
        else
        {
            terminal.Out.WriteLine(FormattableString.Invariant(
                $"{scenario.Title}: {scenario.DurationS:0.###} s, {outcome.SampleCount} samples of {stream.Format.Channels.Count} channels, seed {scenario.Seed}, generator version {Scenario.GeneratorVersion}"));
            if (scenario.SensorTitle.Length > 0)
            {
                terminal.Out.WriteLine($"sensor: {scenario.SensorTitle}");
            }

            SubjectText.Print(terminal.Out, scenario.Subject);
        }

        terminal.Say($"files written to {outPath}");
        return ExitCodes.Done;
    }
}
