// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Control;
using SensorSim.Files.Output;
using SensorSim.Links;
using SensorSim.Links.Pacing;
using SensorSim.Reports.Figures;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scoring;
using SensorSim.Scoring.Matching;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Expectations;
using SensorSim.Studies.Replays;
using SensorSim.Studies.Results;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Cli.Commands;

/// <summary>One replay into a board: puts its parts together, runs it, writes and prints what came.</summary>
internal sealed class ReplayRun : IDisposable
{
    private readonly Terminal _terminal;
    private readonly ReplayInput _input;
    private readonly ReplaySource _source;
    private readonly LineChoice _line;
    private readonly ReplayChoice _choice;
    private readonly LoopChoice? _loop;
    private readonly CalibrationFile? _calibration;
    private readonly OutputFolder? _folder;
    private readonly Stack<IDisposable> _owned = new();

    public ReplayRun(
        Terminal terminal,
        ReplayInput input,
        ReplaySource source,
        LineChoice line,
        ReplayChoice choice,
        LoopChoice? loop,
        CalibrationFile? calibration,
        OutputFolder? folder)
    {
        _terminal = terminal;
        _input = input;
        _source = source;
        _line = line;
        _choice = choice;
        _loop = loop;
        _calibration = calibration;
        _folder = folder;
    }

    /// <summary>The stretch of the stream that is sent.</summary>
    public required StoppableStream Stream { get; init; }

    /// <summary>What the user was told before, a sentence each.</summary>
    public IReadOnlyList<string> Notices { get; init; } = [];

    private StreamFormat Format => Stream.Format;

    // What acquisition.csv tells is the scenario's whole length.
    private bool IsWholeScenario => _input.Scenario is not null && !_choice.HasNoEnd && _choice.StartS == 0 && Stream.EndTick == _source.Stream.EndTick;

    /// <summary>Runs it.</summary>
    /// <returns>Exit code.</returns>
    public int Run(string? outPath, bool isJson, CancellationToken cancellation)
    {
        ReplayProgress progress = Own(new ReplayProgress(_terminal, Stream.EndTick, Format.Clock.TicksPerSecond));
        BoardLog log = Own(new BoardLog(_terminal, _folder?.CreateFile("board.log"), progress.Clear));
        var links = new ReplayLinks(_line, _choice.Damage);
        Pacer? pacer = _choice.Speed is double speed ? new Pacer(TimeProvider.System, speed) : null;
        ExactComparison? exact = _choice.ExpectsExact ? Own(new ExactComparison(Format, new LibraryDetector(_calibration?.Calibration))) : null;
        ILink link = links.Open();
        string linkName = link.Name;
        BoardDetector board = Own(new BoardDetector(link, new BoardOptions
        {
            Calibration = _calibration?.Calibration,
            Pacer = pacer,
            Hurry = cancellation,
            DeadlineMs = _choice.DeadlineMs,
            OnLog = log.Take,
            Reopen = _choice.ReplugS > 0 ? time => links.Reopen(time, cancellation) : null,
            ReopenS = _choice.ReplugS,
        }));
        board.Connect();

        // What a board of somebody else makes of the acceleration nobody here knows.
        IReadOnlyList<string> ofLibrary = _choice.ExpectsExact || board.Name == SetMaker.Detector ? Output.Notices.OfAccelerometer(Format) : [];
        Output.Notices.Tell(_terminal, ofLibrary);

        FileSink? files = _folder is null ? null : Own(new FileSink(
            _folder, Format, withTruth: _source.Truth is not null, withDetections: true, withSamples: false, withSettings: _loop is not null));
        AcquisitionFile? acquisition = _folder is null || !IsWholeScenario
            ? null : Own(new AcquisitionFile(_folder.CreateFile("acquisition.csv"), _input.Scenario!, Format));
        FirstSeconds? first = _folder is null || _source.Truth is null ? null : FirstStretch();
        var counts = new MarkCounts(Format);
        SettingTeller? teller = _loop is null ? null : new SettingTeller(board, Format);
        IDetector detector = _loop is null or { Control: "" } ? board : Controls.Around(_loop.Control, board);
        var runner = new Runner(
            Stream, _source.Truth, detector, _source.Truth is null ? null : NewScorer(), [.. new IRunSink?[] { teller, exact, counts, files, acquisition, first }.OfType<IRunSink>()])
        {
            Loop = _loop is null ? null : new ControlLoop((IAdjustableStream)_source.Stream, _loop.LatencyMs),
        };

        // An interrupt ends the stream, not the run: the board is told, and what came is scored.
        RunOutcome outcome = runner.Run(tick =>
        {
            Stream.Look();
            if (runner.HasFailed && _choice.HasNoEnd)
            {
                // Nobody is left to send it to, and it would never end.
                Stream.EndHere();
            }

            files?.FlushMarks();
            KeepWhatCame();
            progress.Report(tick, board);
        }, CancellationToken.None);
        progress.Clear();
        exact?.Complete();

        var result = new ReplayResult(_input, outcome, LinkSummaries.Of(linkName, board, pacer, _choice.DeadlineMs, links, log.Count) with
        {
            BeginS = _choice.StartS,
            IsStopped = Stream.IsStopped,
        })
        {
            SentS = Format.Clock.Seconds(Stream.EndTick),
            Exact = exact is null ? null : ExactSummary.Of(exact, Format),
            Counts = [.. counts.Rows],
            Loop = runner.Loop,
            Calibration = _calibration,
            Notices = [.. Notices, .. ofLibrary],
        };
        if (_folder is not null)
        {
            files!.Complete();
            acquisition?.Complete();
            if (acquisition is not null && Stream.IsStopped)
            {
                File.Delete(_folder.PathOf("acquisition.csv"));
            }

            log.Dispose();
            WriteRest(result, exact?.Scene, first);
            _folder.Commit();
        }

        result.Print(_terminal, isJson);
        if (teller is { UntoldCount: > 0 })
        {
            _terminal.Say(FormattableString.Invariant($"{teller.UntoldCount} changes of settings were not told to the board, for lack of room"));
        }

        if (Stream.IsStopped)
        {
            _terminal.Say(FormattableString.Invariant($"interrupted after {result.SentS:0.###} s; what came until then is told and written"));
        }

        if (outPath is not null)
        {
            _terminal.Say($"files written to {outPath}");
        }

        return Stream.IsStopped ? ExitCodes.Interrupted : result.IsMet ? ExitCodes.Done : ExitCodes.NotMet;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        while (_owned.TryPop(out IDisposable? part))
        {
            part.Dispose();
        }
    }

    private T Own<T>(T part)
        where T : IDisposable
    {
        _owned.Push(part);
        return part;
    }

    private void KeepWhatCame()
    {
        if (_folder is not null)
        {
            _folder.KeepsUnfinished = true;
        }
    }

    // Of a stream without an end nobody knows a tenth: its lead-in is the shortest.
    private Scorer NewScorer()
    {
        long lengthNs = Stream.EndTick == long.MaxValue ? 0 : Format.Clock.Nanoseconds(Stream.EndTick);
        return new Scorer(Stream, ScoredRows.Options(Format) with { LeadInNs = ScoredSpan.DefaultLeadInNs(lengthNs) });
    }

    private FirstSeconds FirstStretch() => new(
        Format, 0, Stream.EndTick == long.MaxValue ? StripPanel.LongestS : Math.Min(StripPanel.LongestS, Format.Clock.Seconds(Stream.EndTick)), Stream.Clocks);

    private void WriteRest(ReplayResult result, DifferenceScene? scene, FirstSeconds? first)
    {
        using (Stream scores = _folder!.CreateFile(result.JsonName))
        {
            result.WriteJson(scores);
        }

        if (scene is not null)
        {
            DifferenceFigure.Write(_folder.PathOf, $"{_input.Title}: first difference", scene);
        }

        if (first is not null && result.Outcome.SampleCount > 0)
        {
            RunFigures.Write(_folder.PathOf, _input.Title, first, result.Outcome.Report!);
        }
    }
}
