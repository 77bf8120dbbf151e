// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Links.Budgets;
using SensorSim.Links.Lines;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Replays;

namespace SensorSim.Cli.Commands;

/// <summary><c>replay</c>: scenario or recording → a board, in real time or not → score of its answers.</summary>
internal static class ReplayCommand
{
    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var input = new Argument<string>("INPUT") { Description = "Scenario file (TOML); or a recording: folder written by record, EDF, BDF or CSV file" };
        LineOptions line = LineOptions.Create();
        var replay = new ReplayOptions();
        RecordingOptions foreign = RecordingOptions.Create();
        Option<string?> outFolder = CommonOptions.Out("Folder for detections.csv, truth.csv, scores.json, board.log and the pictures; what comes is written at once");
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        Option<string?> settings = CommonOptions.Settings();
        Option<string?> calibration = CommonOptions.Calibration();
        LoopOptions loop = LoopOptions.Create();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("replay", "Send a scenario's stream or a recording to a board and score the board's answers.") { input, line.Link, line.Baud, line.RtsCts };
        foreach (Option option in replay.All)
        {
            command.Options.Add(option);
        }

        foreign.AddTo(command);
        foreach (Option option in new Option[] { outFolder, seed, subjectSeed, sensor, settings, calibration, loop.ClosedLoop, loop.Control, loop.LatencyMs, json })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            LineChoice where = line.Read(parsed)
                ?? throw new UsageException("replay needs --link ADDRESS: where the board is, for example --link /dev/ttyACM0 or --link tcp:127.0.0.1:7000");
            ReplayChoice choice = replay.Read(parsed);
            LoopChoice? closed = loop.Read(parsed, mayAsk: true);
            ReplayInput from = ReplayInput.Read(
                parsed.GetRequiredValue(input), foreign.Read(parsed), parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), parsed.GetValue(settings));
            return Replay(
                terminal, from, where, choice, closed, CalibrationInput.Read(parsed.GetValue(calibration)), parsed.GetValue(outFolder), parsed.GetValue(json), cancellation);
        });
        return command;
    }

    private static int Replay(
        Terminal terminal,
        ReplayInput input,
        LineChoice line,
        ReplayChoice choice,
        LoopChoice? loop,
        CalibrationFile? calibration,
        string? outPath,
        bool isJson,
        CancellationToken cancellation)
    {
        using ReplaySource whole = input.Open(choice, loop is not null);
        StreamFormat format = whole.Stream.Format;
        if (whole.Stream is RecordedRun recorded)
        {
            RecordingInput.Tell(terminal, recorded.Recording);
        }

        CheckStart(whole.Stream, choice);
        CheckLine(terminal, format, line, choice);
        IReadOnlyList<string> notices = input.Scenario is Scenario scenario ? Notices.OfIdleKeys(scenario) : [];
        Notices.Tell(terminal, notices);

        using OutputFolder? folder = outPath is null ? null : OutputPlace.OpenVisible(outPath);
        ReplaySource source = choice.StartS > 0 ? Later(whole, choice, cancellation) : whole;
        using var run = new ReplayRun(terminal, input, source, line, choice, loop, calibration, folder)
        {
            Stream = new StoppableStream(source.Stream, EndTick(source.Stream, choice), cancellation),
            Notices = notices,
        };
        try
        {
            return run.Run(outPath, isJson, cancellation);
        }
        catch (Exception) when (folder is { KeepsUnfinished: true })
        {
            terminal.Say($"what came until then is kept in {outPath}{OutputFolder.UnfinishedEnding}");
            throw;
        }
    }

    private static ReplaySource Later(ReplaySource whole, ReplayChoice choice, CancellationToken cancellation)
    {
        var later = new LaterStream(whole, choice.StartS, cancellation);
        return new ReplaySource(later, later.Truth);
    }

    private static void CheckStart(IAcquiredStream stream, ReplayChoice choice)
    {
        double seconds = stream.EndTick == long.MaxValue ? double.PositiveInfinity : stream.Format.Clock.Seconds(stream.EndTick);
        if (choice.StartS > seconds - 1)
        {
            throw new UsageException(FormattableString.Invariant(
                $"--start-s {choice.StartS:0.###} leaves nothing of the stream, which is {seconds:0.###} s long; begin a second or more before its end"));
        }
    }

    private static long EndTick(IAcquiredStream stream, ReplayChoice choice) => choice.DurationS is double seconds
        ? Math.Min(stream.EndTick, stream.Format.Clock.TickAtOrAfter(seconds))
        : stream.EndTick;

    // A line that is too slow for the stream would make every answer late, and the board would get the blame.
    private static void CheckLine(Terminal terminal, StreamFormat format, LineChoice line, ReplayChoice choice)
    {
        if (choice.Speed is not double speed || line.Address.Kind != LinkKind.Serial)
        {
            return;
        }

        // Eight bits, a start and a stop bit.
        long bytesPerSecond = line.Options.BaudRate / 10;
        var budget = new LineBudget(format, speed);
        string? sentence = budget.Sentence(FormattableString.Invariant($"serial port {line.Address.Target} at {line.Options.BaudRate} baud"), bytesPerSecond);
        switch (budget.Fit(bytesPerSecond))
        {
            case LineFit.TooMuch:
                throw new UsageException(sentence!);
            case LineFit.Tight:
                terminal.Say(sentence!);
                break;
            default:
                break;
        }
    }
}
