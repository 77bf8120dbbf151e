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

/// <summary><c>record</c>: scenario → recording, truth and acquisition.</summary>
internal static class RecordCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        Argument<string> scenario = CommonOptions.Scenario();
        Option<string?> outFolder = CommonOptions.Out("Folder for channels.csv, one CSV file per channel, truth.csv and acquisition.csv");
        outFolder.Required = true;
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        Option<string?> settings = CommonOptions.Settings();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("record", "Make a scenario's stream and store it with its truth.")
        {
            scenario, outFolder, seed, subjectSeed, sensor, settings, json,
        };
        command.SetAction(parsed => Record(
            terminal,
            ScenarioInput.Read(
                parsed.GetRequiredValue(scenario), parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), parsed.GetValue(settings)),
            parsed.GetRequiredValue(outFolder)!,
            parsed.GetValue(json),
            cancellation));
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
