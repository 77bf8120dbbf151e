// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Boards;

/// <summary>A board at the other end of a link as a detector: samples go to it, its answers are handed out.</summary>
/// <remarks>
/// Each block is answered before the next one is sent, so whatever holds for a detector in this process (no mark before its block, a closed loop)
/// holds for a board. Nothing is allocated per block but for lines of a log. In words: <c>docs/boards.md</c>.
/// </remarks>
public sealed class BoardDetector : IDetector
{
    private readonly BoardOptions _options;
    private readonly BoardRecord _record;
    private readonly BoardSession _session;
    private readonly SetupItem[] _items;
    private readonly EventRing<SettingsRequest> _changes = new(DetectorOutput.DefaultRequestCapacity);
    private BoardLine _line;
    private LineTotals _base;
    private StreamFormat? _format;
    private bool _hasFreshHello;
    private bool _hasBegun;
    private long _endTick;

    /// <summary>Creates a detector on an open link. Nothing is sent yet.</summary>
    /// <param name="link">The link; disposed of with the detector.</param>
    /// <param name="options">How it is used.</param>
    /// <exception cref="NotSupportedException">Calibration or constants are none that the library could be told.</exception>
    public BoardDetector(ILink link, BoardOptions options)
        : this(new BoardLine(link ?? throw new ArgumentNullException(nameof(link))), options)
    {
    }

    internal BoardDetector(BoardLine line, BoardOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        _options = options;
        _items = BoardSetup.Items(options.Calibration, options.Constants);
        _line = line;
        _record = new BoardRecord(options);
        _session = new BoardSession(line, options, _record);
    }

    /// <summary>Name and version that the board gives its detector; <c>board</c> before it has said.</summary>
    public string Name => About?.Detector ?? "board";

    /// <summary>What the board says of itself; null before <see cref="Connect"/> or <see cref="Start"/>.</summary>
    public BoardIdentity? About { get; private set; }

    /// <summary>What went over the line since the start, as both ends counted it.</summary>
    public BoardCounts Counts
    {
        get
        {
            LineTotals now = LineTotals.Of(_line).Plus(_base);
            return _record.Counts(_session.State) with
            {
                FramesSent = now.FramesSent,
                BytesSent = now.BytesSent,
                BytesReceived = now.BytesReceived,
                FramesReceived = now.Good,
                FramesDamaged = now.Damaged,
                FramesMissing = now.Missing,
                FramesRepeated = now.Repeated,
            };
        }
    }

    /// <summary>How long answers took.</summary>
    public AnswerLatency Latency => _record.Times.Latency;

    /// <summary>What the board measured about itself; the latest of each.</summary>
    public IReadOnlyList<BoardFigure> Figures => _record.Figures;

    /// <summary>The first thousand lines of the board's log, its troubles among them.</summary>
    public IReadOnlyList<BoardLogLine> Log => _record.Log;

    /// <summary>Further lines of the log, which were passed on but not kept.</summary>
    public long LogLinesDropped => _record.LogLinesDropped;

    /// <summary>Whether the line failed and must not be used for another run.</summary>
    internal bool IsBroken { get; private set; }

    /// <summary>Says hello and hears who is there. <see cref="Start"/> does so too when nobody has; here its failure can be told from one of the detector.</summary>
    /// <exception cref="LinkUnavailableException">Nobody answers, or nothing that is a frame.</exception>
    /// <exception cref="LinkLostException">The other end is gone.</exception>
    public BoardIdentity Connect()
    {
        Guard(MeetAfresh);
        return About!;
    }

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        if (format.Channels.Count > FormatPayload.MaximumChannels)
        {
            throw new NotSupportedException($"A board takes at most {FormatPayload.MaximumChannels} channels; the stream has {format.Channels.Count}.");
        }

        _format = format;
        _hasBegun = false;
        _endTick = 0;
        _changes.Clear();
        if (!_hasFreshHello)
        {
            Guard(MeetAfresh);
        }

        _hasFreshHello = false;
        Guard(() => Named(() => _session.Begin(format, _items, 0)));
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        if (!_hasBegun)
        {
            _options.Pacer?.Begin(_format!.Clock.Nanoseconds(block.BeginTick));
            _hasBegun = true;
        }

        _endTick = block.EndTick;
        long from = block.BeginTick;
        while (true)
        {
            try
            {
                TellChanges();
                _session.Send(block, from, output);
                return;
            }
            catch (LinkLostException e)
            {
                from = GoOn(e, output);
            }
            catch (SessionForgottenException)
            {
                from = BeginAnewOrGoOn(output);
            }
            catch
            {
                IsBroken = true;
                throw;
            }
        }
    }

    /// <inheritdoc/>
    /// <exception cref="DetectorLateException">More answers than may were later than the deadline; all of them have been handed out.</exception>
    public void Flush(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        Guard(() => Named(() => Stop(output)));
        if (Latency.MissedShare > _options.LateShare)
        {
            throw new DetectorLateException(FormattableString.Invariant(
                $"{_options.Subject} gave {Latency.MissedDeadlines} of {Latency.JudgedCount} answers later than {_options.DeadlineMs:0.###} ms after they were due"));
        }
    }

    /// <summary>Tells the board, before the next block, that a setting of the sensor changes.</summary>
    /// <param name="change">The change.</param>
    /// <returns>Whether there was room.</returns>
    public bool TellSetting(in SettingsRequest change) => _changes.Add(change);

    /// <summary>Closes the link.</summary>
    public void Dispose() => _line.Dispose();

    // Counts and read-outs begin with the hello of a run.
    private void MeetAfresh()
    {
        _record.Clear();
        _base = LineTotals.Of(_line).Negative();
        SayHello();
    }

    private void SayHello()
    {
        About = BoardIdentity.Of(_session.SayHello());
        _hasFreshHello = true;
    }

    private void TellChanges()
    {
        while (_changes.TryTake(out SettingsRequest change))
        {
            _session.Tell(change);
        }
    }

    // A line that is lost here is waited for, too: the last answers are worth it.
    private void Stop(DetectorOutput output)
    {
        while (true)
        {
            try
            {
                _session.Stop(_endTick, output);
                return;
            }
            catch (LinkLostException e) when (_options.Reopen is not null)
            {
                GoOn(e, output);
            }
        }
    }

    // The line is gone: waits for it, and goes on where the board is.
    private long GoOn(LinkLostException lost, DetectorOutput output)
    {
        while (true)
        {
            // Let go of first: a port that is still held cannot be opened again.
            _base = LineTotals.Of(_line).Plus(_base);
            _line.Dispose();
            ILink? link = _options.Reopen?.Invoke(TimeSpan.FromSeconds(_options.ReopenS));
            if (link is null)
            {
                IsBroken = true;
                throw new DetectorCrashedException(_options.Reopen is null
                    ? WhyGone(lost)
                    : FormattableString.Invariant($"{_options.Subject} is gone and did not come back within {_options.ReopenS:0.###} s: {WithoutStop(lost.Message)}"));
            }

            _line = new BoardLine(link);
            _session.GoOnOver(_line);
            _record.Reconnects++;
            try
            {
                long from = _session.AskHowFar(output) ?? BeginAnew();
                _options.Pacer?.Begin(_format!.Clock.Nanoseconds(from));
                return from;
            }
            catch (LinkLostException e)
            {
                lost = e;
            }
        }
    }

    private long BeginAnewOrGoOn(DetectorOutput output)
    {
        try
        {
            return BeginAnew();
        }
        catch (LinkLostException e)
        {
            return GoOn(e, output);
        }
    }

    // The board knows nothing any more: a new session, from the first sample that it was not sent.
    private long BeginAnew()
    {
        if (_options.Reopen is null)
        {
            IsBroken = true;
            throw new DetectorCrashedException($"{_options.Subject} has started anew in the middle of the stream");
        }

        long from = _session.WrittenTick;
        _record.Close(_session.State);
        _record.SessionsBegunAnew++;
        try
        {
            SayHello();
        }
        catch (LinkUnavailableException e)
        {
            IsBroken = true;
            throw new DetectorCrashedException($"{_options.Subject} has started anew in the middle of the stream, and then: {WithoutStop(e.Message)}", e);
        }

        _hasFreshHello = false;
        _session.Begin(_format!, _items, from);
        return from;
    }

    private void Guard(Action work)
    {
        try
        {
            work();
        }
        catch
        {
            IsBroken = true;
            throw;
        }
    }

    // Between hello and the end a lost line or session is the detector's failure.
    private void Named(Action work)
    {
        try
        {
            work();
        }
        catch (LinkLostException e)
        {
            throw new DetectorCrashedException(WhyGone(e), e);
        }
        catch (SessionForgottenException e)
        {
            throw new DetectorCrashedException($"{_options.Subject} has started anew in the middle of the stream", e);
        }
    }

    private string WhyGone(LinkLostException lost) => _options.WhyGone?.Invoke(lost) ?? $"{_options.Subject} is gone: {WithoutStop(lost.Message)}";

    private static string WithoutStop(string sentence) => OneLine.Of(sentence).TrimEnd('.');
}
