// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Exports;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>record</c>: scenario → recording, truth and acquisition; a recording → other forms; or a board's own samples → recording.</summary>
internal static class RecordCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var source = new Argument<string?>("SOURCE")
        {
            Description = "Scenario file (TOML); or a recording to convert: folder written by record, EDF, BDF or CSV file; none with --link", Arity = ArgumentArity.ZeroOrOne,
        };
        Option<string[]> format = FormOption.Create();
        RecordingOptions foreign = RecordingOptions.Create();
        LineOptions line = LineOptions.Create();
        Option<double?> duration = NumberOption.Real("--duration-s", "Scenario: length instead of its own [s]; with --link: length of the recording, until an interrupt unless given", 1, 3e7);
        Option<string?> outFolder = CommonOptions.Out("Folder for the samples in the forms that are wanted, and truth.csv and acquisition.csv where there are any");
        outFolder.Required = true;
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        Option<string?> settings = CommonOptions.Settings();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("record", "Make a scenario's stream and store it with its truth, convert a recording, or store what a board samples.")
        {
            source, outFolder, format, seed, subjectSeed, sensor, settings, line.Link, line.Baud, line.RtsCts, duration,
        };
        foreign.AddTo(command);
        command.Options.Add(json);
        command.SetAction(parsed =>
        {
            string? path = parsed.GetValue(source);
            double? seconds = parsed.GetValue(duration);
            string outPath = parsed.GetRequiredValue(outFolder)!;
            IReadOnlyList<RecordingForm> forms = FormOption.Read(parsed.GetValue(format));
            RecordingChoice choice = foreign.Read(parsed);
            bool isJson = parsed.GetValue(json);
            bool saysScenario = parsed.GetValue(seed) is not null || parsed.GetValue(subjectSeed) is not null || parsed.GetValue(sensor) is not null || parsed.GetValue(settings) is not null;
            if (line.Read(parsed) is LineChoice board)
            {
                return path is null && !saysScenario && !choice.IsAny
                    ? RecordBoard.Record(terminal, board, seconds, forms, outPath, isJson, cancellation)
                    : throw new UsageException(choice.IsAny
                        ? "--link records what a board samples, which says itself what it is; --map, --rate-hz, --unit, --channel, --uv-per-code and --inverted have no part in that, leave them out"
                        : "--link records what a board samples; a scenario and its --seed, --subject-seed, --sensor and --settings have no part in that, leave them out");
            }

            if (path is null)
            {
                throw new UsageException("record needs SOURCE: Scenario file (TOML), or a recording to convert; or --link ADDRESS, to record what a board samples");
            }

            if (RecordingInput.IsRecording(path))
            {
                return seconds is not null ? throw new UsageException("--duration-s is for a scenario or a board; a recording has its length, leave it out")
                    : saysScenario
                    ? throw new UsageException("--seed, --subject-seed, --sensor and --settings belong to a scenario; a recording is made already, leave them out")
                    : RecordConversion.Record(terminal, path, choice, forms, outPath, isJson, cancellation);
            }

            return choice.IsAny
                ? throw new UsageException("--map, --rate-hz, --unit, --channel, --uv-per-code and --inverted belong to a recording of others; a scenario says these itself")
                : Record(
                    terminal,
                    ScenarioInput.Read(path, parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), parsed.GetValue(settings), seconds),
                    forms,
                    outPath,
                    isJson,
                    cancellation);
        });
        return command;
    }

    private static int Record(Terminal terminal, Scenario scenario, IReadOnlyList<RecordingForm> forms, string outPath, bool isJson, CancellationToken cancellation)
    {
        if (RateChanges.Any(scenario))
        {
            RateChanges.Refuse(forms);
        }

        Notices.Tell(terminal, Notices.OfIdleKeys(scenario));
        using OutputFolder folder = OutputPlace.Open(outPath);
        SensorStream stream = scenario.CreateStream();
        using var files = new FileSink(folder, stream.Format, withTruth: true, withDetections: false, withSamples: false);
        var facts = new RecordingFacts { Title = scenario.Title, Seed = scenario.Seed, GeneratorVersion = Scenario.GeneratorVersion };
        using var stored = new StoredForms(folder, stream.Format, forms, facts, stream.Clocks, withTruth: true);
        using var acquisition = new AcquisitionFile(folder.CreateFile("acquisition.csv"), scenario, stream.Format);
        using var progress = new Progress(terminal, stream.EndTick, stream.Format.Clock.TicksPerSecond);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector: null, scorer: null, files, stored, acquisition).Run(progress.Report, cancellation);
        progress.Clear();
        files.Complete();
        stored.Complete();
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

        stored.Tell(terminal);
        terminal.Say($"files written to {outPath}");
        return ExitCodes.Done;
    }
}
