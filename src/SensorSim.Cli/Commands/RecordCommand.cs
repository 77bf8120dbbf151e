// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Sensing;
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
        Option<bool> json = CommonOptions.Json();
        var command = new Command("record", "Make a scenario's stream and store it with its truth.") { scenario, outFolder, seed, json };
        command.SetAction(parsed => Record(
            terminal,
            ScenarioInput.Read(parsed.GetRequiredValue(scenario), parsed.GetValue(seed)),
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
        using var progress = new Progress(terminal, stream.EndTick, stream.Format.Clock.TicksPerSecond);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector: null, scorer: null, files).Run(progress.Report, cancellation);
        progress.Clear();
        files.Complete();
        using (Stream acquisition = folder.CreateFile("acquisition.csv"))
        {
            AcquisitionRows.Write(scenario, stream.Format, acquisition);
        }

        folder.Commit();
        if (isJson)
        {
            CountsJson.Write(
                terminal.OutStream,
                [("scenario", scenario.File)],
                [("seed", scenario.Seed), ("generator_version", Scenario.GeneratorVersion), ("duration_s", scenario.DurationS), ("sample_count", outcome.SampleCount)],
                marks: null);
        }
        else
        {
            terminal.Out.WriteLine(FormattableString.Invariant(
                $"{scenario.Title}: {scenario.DurationS:0.###} s, {outcome.SampleCount} samples of {stream.Format.Channels.Count} channels, seed {scenario.Seed}, generator version {Scenario.GeneratorVersion}"));
        }

        terminal.Say($"files written to {outPath}");
        return ExitCodes.Done;
    }
}
