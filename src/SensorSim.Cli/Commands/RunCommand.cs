// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Control;
using SensorSim.Files.Output;
using SensorSim.Reports.Figures;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>run</c>: scenario → stream → detector → score; table, files and pictures.</summary>
internal static class RunCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        Argument<string> scenario = CommonOptions.Scenario();
        Option<string?> outFolder = CommonOptions.Out("Folder for detections.csv, truth.csv, acquisition.csv, scores.json and the pictures; without it only the table is given");
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        Option<string?> settings = CommonOptions.Settings();
        Option<string?> calibration = CommonOptions.Calibration();
        DetectorOptions own = DetectorOptions.Create();
        LoopOptions loop = LoopOptions.Create();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("run", "Make a scenario's stream, run the detector on it and score its answers.")
        {
            scenario, outFolder, seed, subjectSeed, sensor, settings, calibration,
            own.Detector, own.DetectorCommand, own.DetectorClass, own.InProcess, loop.ClosedLoop, loop.Control, loop.LatencyMs, json,
        };
        command.SetAction(parsed => Run(
            terminal,
            own.Read(parsed, parsed.GetValue(calibration) is not null),
            ScenarioInput.Read(
                parsed.GetRequiredValue(scenario), parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), parsed.GetValue(settings)),
            CalibrationInput.Read(parsed.GetValue(calibration)),
            loop.Read(parsed, mayAsk: own.IsGiven(parsed)),
            parsed.GetValue(outFolder),
            parsed.GetValue(json),
            cancellation));
        return command;
    }

    private static int Run(
        Terminal terminal,
        DetectorChoice? own,
        Scenario scenario,
        CalibrationFile? calibration,
        LoopChoice? loop,
        string? outPath,
        bool isJson,
        CancellationToken cancellation)
    {
        using IDetectorFactory? factory = own is null ? null : DetectorFactories.Open(own with { Calibration = calibration?.Calibration });
        using OutputFolder? folder = outPath is null ? null : OutputPlace.Open(outPath);

        // The plotting library takes its time to load: let it do so on another core while the stream is made.
        Task warmUp = folder is null ? Task.CompletedTask : Task.Run(FigureWarmUp.Run, cancellation);
        SensorStream stream = scenario.CreateStream();
        var library = new LibraryDetector(calibration?.Calibration);
        IDetector inner = factory?.Create(new Dictionary<string, double>()) ?? library;
        using IDetector detector = loop is null or { Control: "" } ? inner : Controls.Around(loop.Control, inner);
        string[] notices = [.. Notices.OfIdleKeys(scenario), .. own is null ? Notices.OfAccelerometer(stream.Format) : []];
        Notices.Tell(terminal, notices);
        var scorer = new Scorer(stream, ScoredRows.Options(stream.Format));
        using FileSink? files = folder is null ? null : new FileSink(folder, stream.Format, withTruth: true, withDetections: true, withSamples: false, withSettings: loop is not null);
        using AcquisitionFile? acquisition = folder is null ? null : new AcquisitionFile(folder.CreateFile("acquisition.csv"), scenario, stream.Format);
        var first = new FirstSeconds(stream.Format, 0, Math.Min(StripPanel.LongestS, scenario.DurationS), stream.Clocks);
        IRunSink[] sinks = files is null ? [] : [files, acquisition!, first];

        using var progress = new Progress(terminal, stream.EndTick, stream.Format.Clock.TicksPerSecond);
        var runner = new Runner(stream, stream.Truth, detector, scorer, sinks)
        {
            Loop = loop is null ? null : new ControlLoop(stream, loop.LatencyMs),
        };
        RunOutcome outcome = runner.Run(progress.Report, cancellation);
        progress.Clear();

        RunSummary summary = RunSummary.FromScenario(scenario, outcome) with
        {
            Loop = runner.Loop,
            Calibration = calibration,
            Notices = notices,
            NoPressure = calibration?.Calibration.Pressure is not null && outcome.Report!.Readings.All(r => r.Kind != MarkKind.SystolicMmhg)
                ? library.PressureRefusal ?? "no arrival time of 30 s was given"
                : null,
        };
        if (folder is not null)
        {
            files!.Complete();
            acquisition!.Complete();
            using (Stream scores = folder.CreateFile("scores.json"))
            {
                SummaryJson.Write(scores, summary);
            }

            warmUp.GetAwaiter().GetResult();
            RunFigures.Write(folder.PathOf, scenario.Title, first, summary.Report);
            folder.Commit();
        }

        if (isJson)
        {
            SummaryJson.Write(terminal.OutStream, summary);
        }
        else
        {
            SummaryTable.Print(terminal, summary);
        }

        if (outPath is not null)
        {
            terminal.Say($"files written to {outPath}");
        }

        return summary.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
