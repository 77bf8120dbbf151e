// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;

namespace SensorSim.Detectors.Boards;

/// <summary>What is kept of a run on a board beside its marks: log, figures, counts of finished sessions. Bounded.</summary>
internal sealed class BoardRecord
{
    private const int MostLines = 1000;
    private const int MostFigures = 256;

    private readonly List<BoardLogLine> _log = [];
    private readonly List<BoardFigure> _figures = [];
    private readonly BoardFigure[] _room = new BoardFigure[FigurePayload.MaximumCount];
    private readonly Action<BoardLogLine>? _onLog;
    private ProgressPayload _finished;
    private long _marksReceived;

    public BoardRecord(BoardOptions options)
    {
        _onLog = options.OnLog;
        Times = new AnswerTimes(options.DeadlineMs);
    }

    public IReadOnlyList<BoardLogLine> Log => _log;

    public long LogLinesDropped { get; private set; }

    public IReadOnlyList<BoardFigure> Figures => _figures;

    public AnswerTimes Times { get; }

    public long Troubles { get; set; }

    public long Reconnects { get; set; }

    public long SessionsBegunAnew { get; set; }

    public void Clear()
    {
        _log.Clear();
        _figures.Clear();
        LogLinesDropped = 0;
        Times.ForgetFrames();
        Times.Latency.Clear();
        Troubles = 0;
        Reconnects = 0;
        SessionsBegunAnew = 0;
        _finished = default;
        _marksReceived = 0;
    }

    /// <summary>Keeps a line of the log, the first ones of many, and passes it on.</summary>
    public void AddLine(LogLevel level, string text)
    {
        var line = new BoardLogLine(level, OneLine.Of(text));
        if (_log.Count < MostLines)
        {
            _log.Add(line);
        }
        else
        {
            LogLinesDropped++;
        }

        _onLog?.Invoke(line);
    }

    /// <summary>Keeps figures; a later value of the same item and index takes the place of the earlier one.</summary>
    public bool AddFigures(ReadOnlySpan<byte> payload)
    {
        if (!FigurePayload.TryRead(payload, _room, out int count))
        {
            return false;
        }

        foreach (BoardFigure figure in _room.AsSpan(0, count))
        {
            // All that have a name are counts and sizes.
            if (figure.Value < 0 && figure.Item <= BoardFigures.BytesLost)
            {
                return false;
            }

            int at = _figures.FindIndex(f => f.Item == figure.Item && f.Index == figure.Index);
            if (at >= 0)
            {
                _figures[at] = figure;
            }
            else if (_figures.Count < MostFigures)
            {
                _figures.Add(figure);
            }
        }

        return true;
    }

    /// <summary>A session is over: its counts are added to those before.</summary>
    public void Close(SessionState state)
    {
        _finished = Sum(_finished, state.Progress);
        _marksReceived += state.MarksReceived;
    }

    /// <summary>Counts of all sessions, the one at hand included.</summary>
    public BoardCounts Counts(SessionState state)
    {
        ProgressPayload there = Sum(_finished, state.Progress);
        long received = _marksReceived + state.MarksReceived;
        long dropped = _figures.Find(f => f is { Item: BoardFigures.AnswersLost, Index: 0 }).Value;
        return new BoardCounts
        {
            BoardAccepted = there.Accepted,
            BoardDamaged = there.Damaged,
            BoardMissing = there.Missing,
            BoardRepeated = there.Repeated,
            Troubles = Troubles,
            AnswersReceived = received,
            AnswersAnnounced = there.MarksSent,
            AnswersLost = SaturatedSum(Math.Max(0, there.MarksSent - received), dropped),
            Reconnects = Reconnects,
            SessionsBegunAnew = SessionsBegunAnew,
        };
    }

    // A board may tell any number.
    private static long SaturatedSum(long a, long b) => a > long.MaxValue - b ? long.MaxValue : a + b;

    private static ProgressPayload Sum(in ProgressPayload a, in ProgressPayload b) => a with
    {
        Accepted = unchecked(a.Accepted + b.Accepted),
        Damaged = unchecked(a.Damaged + b.Damaged),
        Missing = unchecked(a.Missing + b.Missing),
        Repeated = unchecked(a.Repeated + b.Repeated),
        MarksSent = unchecked(a.MarksSent + b.MarksSent),
    };
}
