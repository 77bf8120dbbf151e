// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Globalization;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Probing;
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
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
        var recording = new Argument<string>("RECORDING") { Description = "Folder written by record, or a CSV file with a header and one number per line" };
        Option<long?> rateHz = NumberOption.Whole("--rate-hz", "CSV file: sampling rate [Hz]", 1, 1_000_000);
        var unit = new Option<string>("--unit") { Description = "CSV file: what the numbers are", DefaultValueFactory = _ => "mv", HelpName = "UNIT" };
        unit.AcceptOnlyFromAmong("mv", "counts");
        var channel = new Option<string>("--channel") { Description = "CSV file: what the numbers measure", DefaultValueFactory = _ => "ecg", HelpName = "CHANNEL" };
        channel.AcceptOnlyFromAmong([.. ChannelNames.All]);
        Option<double?> scale = NumberOption.Real("--uv-per-code", "CSV file in mV: size of one code [µV]; 1 unless given", 0.001, 10000);
        var inverted = new Option<bool>("--inverted") { Description = "CSV file: the numbers point the other way: swapped electrodes, or a pulse drawn upwards" };
        Option<string?> calibration = CommonOptions.Calibration();
        DetectorOptions own = DetectorOptions.Create();
        StageOptions stages = StageOptions.Create();
        Option<string?> outFolder = CommonOptions.Out("Folder for detections.csv");
        Option<bool> json = CommonOptions.Json();
        var command = new Command("detect", "Run the detector on a recording.")
        {
            recording, rateHz, unit, channel, scale, inverted, calibration,
            own.Detector, own.DetectorCommand, own.DetectorClass, own.InProcess, stages.Audit, stages.Trace, outFolder, json,
        };
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
            if (calibrated is not null && File.Exists(path))
            {
                throw new UsageException("--calibration is for a recording of the ECG and light; a CSV file holds one channel, and nothing there could be calibrated");
            }

            ISampleStream stream = Open(
                path,
                parsed.GetValue(rateHz),
                parsed.GetValue(unit)!,
                parsed.GetValue(channel)!,
                parsed.GetValue(scale),
                parsed.GetValue(inverted),
                parsed.GetResult(unit) is { Implicit: false } || parsed.GetResult(channel) is { Implicit: false });
            using var owned = (IDisposable)stream;
            return Detect(terminal, path, stream, chosen, calibrated, choice, parsed.GetValue(outFolder), parsed.GetValue(json), cancellation);
        });
        return command;
    }

    private static ISampleStream Open(string path, long? rateHz, string unit, string channel, double? microvoltsPerCode, bool isInverted, bool saysWhat)
    {
        if (Directory.Exists(path))
        {
            if (!RecordingFolderReader.IsRecording(path))
            {
                throw new UsageException($"{path}: there is no channels.csv in this folder; give a folder written by record, or a CSV file");
            }

            if (rateHz is not null || microvoltsPerCode is not null || isInverted || saysWhat)
            {
                throw new UsageException("--rate-hz, --unit, --channel, --uv-per-code and --inverted belong to a CSV file; a recording says these itself in channels.csv");
            }

            return new RecordingFolderReader(path);
        }

        if (!File.Exists(path))
        {
            throw new UsageException($"{path}: there is no such file or folder; give a folder written by record, or a CSV file");
        }

        if (rateHz is null)
        {
            throw new UsageException($"{path}: a CSV file does not say its sampling rate; add --rate-hz, for example --rate-hz 360");
        }

        if (!ChannelNames.TryParse(channel, out ChannelName name))
        {
            throw new UsageException($"--channel {channel} must be one of {string.Join(", ", ChannelNames.All)}");
        }

        if (unit == "mv" && name != ChannelName.Ecg)
        {
            throw new UsageException($"--unit mv is for the ecg channel; for {channel} use --unit counts");
        }

        if (unit == "counts" && microvoltsPerCode is not null)
        {
            throw new UsageException("--uv-per-code is for --unit mv; counts are taken as they are");
        }

        return new ColumnCsvSource(path, new ColumnCsvOptions
        {
            Channel = name,
            RateHz = (int)rateHz.Value,
            Unit = unit == "mv" ? ColumnUnit.Mv : ColumnUnit.Counts,
            UnitPerCode = (microvoltsPerCode ?? 1) * 1e-3,
            IsInverted = isInverted,
        });
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
                terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{c.Name.Text(),-10} {c.RateHz} Hz, {c.UnitPerCode:0.######} {c.Unit} per code"));
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
