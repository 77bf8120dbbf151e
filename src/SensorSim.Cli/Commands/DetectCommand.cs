// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Globalization;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Probing;
using SensorSim.Files.Output;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Commands;

/// <summary><c>detect</c>: recording → marks.</summary>
internal static class DetectCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var recording = new Argument<string>("RECORDING") { Description = "Folder written by record, an EDF or BDF file, or a CSV file with a header" };
        RecordingOptions foreign = RecordingOptions.Create();
        Option<string?> calibration = CommonOptions.Calibration();
        DetectorOptions own = DetectorOptions.Create();
        StageOptions stages = StageOptions.Create();
        Option<string?> outFolder = CommonOptions.Out("Folder for detections.csv");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("detect", "Run the detector on a recording.") { recording };
        foreign.AddTo(command);
        foreach (Option option in new Option[]
        {
            calibration, own.Detector, own.DetectorCommand, own.DetectorClass, own.InProcess, stages.Audit, stages.Trace, outFolder, json,
        })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            string path = parsed.GetRequiredValue(recording);
            StageChoice choice = stages.Read(parsed, parsed.GetValue(outFolder) is not null);
            DetectorChoice? chosen = own.Read(parsed, parsed.GetValue(calibration) is not null);
            if (chosen is not null && choice.IsAny)
            {
                throw new UsageException("--audit and --trace look inside the library; they see nothing of a detector of your own");
            }

            CalibrationFile? calibrated = CalibrationInput.Read(parsed.GetValue(calibration));
            ISampleStream stream = RecordingInput.Open(path, foreign.Read(parsed));
            using var owned = (IDisposable)stream;
            RecordingInput.Tell(terminal, stream);
            if (calibrated is not null && stream.Format.Channels.Count == 1)
            {
                throw new UsageException(File.Exists(path)
                    ? "--calibration is for a recording of the ECG and light; a CSV file holds one channel, and nothing there could be calibrated"
                    : "--calibration is for a recording of the ECG and light; this one holds one channel, and nothing there could be calibrated");
            }

            return Detect(terminal, path, stream, chosen, calibrated, choice, parsed.GetValue(outFolder), parsed.GetValue(json), cancellation);
        });
        return command;
    }

    private static int Detect(
        Terminal terminal,
        string path,
        ISampleStream stream,
        DetectorChoice? own,
        CalibrationFile? calibration,
        StageChoice stages,
        string? outPath,
        bool isJson,
        CancellationToken cancellation)
    {
        using IDetectorFactory? factory = own is null ? null : DetectorFactories.Open(own with { Calibration = calibration?.Calibration });
        using IDetector? foreign = factory?.Create(new Dictionary<string, double>());
        using OutputFolder? folder = outPath is null ? null : OutputPlace.Open(outPath);
        using var watch = new StageWatch(stages, calibration?.Calibration, folder, stream.Format);
        using FileSink? files = folder is null ? null : new FileSink(folder, stream.Format, withTruth: false, withDetections: true, withSamples: false);
        var counts = new MarkCounts(stream.Format);
        if (own is null)
        {
            Notices.Tell(terminal, Notices.OfAccelerometer(stream.Format));
        }

        IRunSink[] sinks = files is null ? [counts] : [counts, files];
        using var progress = new Progress(terminal, stream.EndTick, stream.Format.Clock.TicksPerSecond);
        RunOutcome outcome = new Runner(stream, truth: null, foreign ?? watch.Detector, scorer: null, sinks).Run(progress.Report, cancellation);
        progress.Clear();
        files?.Complete();
        watch.Complete();
        folder?.Commit();
        double seconds = stream.Format.Clock.Seconds(stream.EndTick);
        if (isJson)
        {
            CountsJson.Write(
                terminal.OutStream,
                [("recording", path), ("detector", outcome.DetectorName), ("verdict", SummaryJson.Word(outcome.Verdict))],
                [("duration_s", seconds), ("sample_count", outcome.SampleCount), ("mark_count", outcome.MarkCount)],
                [.. counts.Rows],
                watch.Audit is StageAudit seen ? document => AuditText.Write(document, seen) : null);
        }
        else
        {
            terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{path}: {seconds:0.###} s, detector {outcome.DetectorName}"));
            foreach (ChannelFormat c in stream.Format.Channels)
            {
                terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{c.Name.Text(),-10} {c.RateHz} Hz, {c.UnitPerCode:G6} {c.Unit} per code"));
            }

            foreach ((string channel, string kind, long count) in counts.Rows)
            {
                terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{channel,-10} {kind,-28} {count,8}"));
            }

            if (watch.Audit is StageAudit audit)
            {
                terminal.Out.WriteLine();
                foreach (string line in AuditText.Of(audit))
                {
                    terminal.Out.WriteLine(line);
                }
            }
        }

        if (outcome.Verdict != Verdict.Answered)
        {
            terminal.Say(outcome.VerdictReason);
        }

        if (outPath is not null)
        {
            string[] written = ["detections.csv", .. stages.Traced.Select(TraceFiles.NameOf)];
            terminal.Say($"{string.Join(", ", written)} written to {outPath}");
        }

        return outcome.Verdict == Verdict.Answered ? ExitCodes.Done : ExitCodes.NotMet;
    }
}
