// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Boards;

/// <summary>The host's end of a session, as <c>docs/link-protocol.md</c> describes it, over one line after the other.</summary>
internal sealed class BoardSession
{
    /// <summary>What waits for an answer is sent again after this time [ms].</summary>
    public const int RepeatMs = 250;

    // Who sends so much that is no frame will not send one.
    private const long MostGarbage = 65_536;

    // So much may be the rest of a frame and some noise.
    private const long LeastGarbage = FrameLimits.WireBuffer / 4;
    private const int TimeMarkBytes = 16;
    private static int s_lastSession = (int)Stopwatch.GetTimestamp();

    private readonly BoardOptions _options;
    private readonly BoardRecord _record;
    private readonly SessionState _state = new();
    private readonly FrameTaker _taker;
    private readonly byte[] _payload = new byte[FrameLimits.MaximumPayload];
    private DetectorOutput _output = new();
    private StreamFormat? _format;
    private SamplesWriter? _samples;
    private BoardLine _line;

    public BoardSession(BoardLine line, BoardOptions options, BoardRecord record)
    {
        _line = line;
        _options = options;
        _record = record;
        _taker = new FrameTaker(_state, record);
    }

    /// <summary>What the board has said.</summary>
    public SessionState State => _state;

    /// <summary>First tick that has not been written to the board.</summary>
    public long WrittenTick { get; private set; }

    /// <summary>Goes on over another line.</summary>
    public void GoOnOver(BoardLine line)
    {
        line.NumberFrom(_line.NextSequence);
        _line = line;
        _record.Times.ForgetFrames();
    }

    /// <summary>Says <c>hello</c> and hears what the board says of itself.</summary>
    /// <exception cref="LinkUnavailableException">Nobody answers, or in no language that is known here.</exception>
    public AboutPayload SayHello()
    {
        uint session = unchecked((uint)Interlocked.Increment(ref s_lastSession));
        _state.Begin(session);
        _line.NumberFrom(0);
        var version = typeof(BoardSession).Assembly.GetName().Version!;
        var hello = new HelloPayload(session, FrameLimits.Version, FrameLimits.Version, $"sensorsim {version.Major}.{version.Minor}");
        int length = hello.Write(_payload);
        long begin = Stopwatch.GetTimestamp();
        while (_state.About is null)
        {
            _line.Send(FrameType.Hello, _payload.AsSpan(0, length));
            HearUntilRepeat(static state => state.About is not null || state.Trouble is { Code: TroubleCode.WrongVersion });
            if (_state.About is null && (_state.Trouble is { Code: TroubleCode.WrongVersion } || IsOver(begin, _options.HelloS) || IsGarbage(MostGarbage)))
            {
                throw new LinkUnavailableException(WhyNoHello());
            }
        }

        // What the board said of frames before the hello is no refusal of what comes now.
        _state.Trouble = null;
        return WhatIsWrong(_state.About.Value) is string wrong
            ? throw new LinkUnavailableException($"The {_line.Name}: the other end {wrong}.")
            : _state.About.Value;
    }

    /// <summary>Tells the stream and what the detector must know, and has samples begin.</summary>
    /// <exception cref="NotSupportedException">The board refuses.</exception>
    public void Begin(StreamFormat format, ReadOnlySpan<SetupItem> items, long beginTick)
    {
        _format = format;
        _taker.Format = format;
        _samples = new SamplesWriter(format);
        WrittenTick = beginTick;
        for (int i = 0; i < FormatPayload.Count(format); i++)
        {
            Request(FrameType.Format, FormatPayload.Write(format, i, _payload));
        }

        for (int at = 0; at < items.Length; at += SetupPayload.MaximumCount)
        {
            Request(FrameType.Setup, SetupPayload.Write(items.Slice(at, Math.Min(SetupPayload.MaximumCount, items.Length - at)), _payload));
        }

        Request(FrameType.Start, new TickPayload(beginTick).Write(_payload));
        _state.Start(_state.Accepted.Sequence, beginTick);
    }

    /// <summary>Tells of a setting that changes.</summary>
    public void Tell(in SettingsRequest change) => _line.Send(FrameType.Setting, _payload.AsSpan(0, SettingPayload.Write(change, _payload)));

    /// <summary>Sends a block and hears until the board has taken it to its end.</summary>
    /// <param name="block">The block.</param>
    /// <param name="fromTick">First tick that is sent; where a frame begins.</param>
    /// <param name="output">Takes the answers.</param>
    /// <exception cref="LinkLostException">The line is gone.</exception>
    /// <exception cref="SessionForgottenException">The board no longer knows the session.</exception>
    public void Send(SampleBlock block, long fromTick, DetectorOutput output)
    {
        _output = output;
        _samples!.Begin(block, asksAtEnd: true);
        int length;
        while ((length = _samples.Write(_payload)) > 0)
        {
            if (_samples.EndTick > fromTick)
            {
                SendSamples(length, _samples.EndTick);
            }
        }

        HearUntilTaken(block.EndTick);
    }

    /// <summary>After the line came back: how far the board is.</summary>
    /// <returns>Tick up to which it has taken samples; null when it does not know the session.</returns>
    public long? AskHowFar(DetectorOutput output)
    {
        _output = output;
        int before = _state.ProgressCount;
        long begin = Stopwatch.GetTimestamp();
        while (!IsOver(begin, _options.HelloS) && !_state.IsForgotten)
        {
            _line.Send(FrameType.Ask, default);
            HearUntilRepeat(state => state.ProgressCount != before || state.IsForgotten);
            if (_state.ProgressCount != before)
            {
                return _state.TakenTick;
            }
        }

        return null;
    }

    /// <summary>The stream has ended: hears the last answers.</summary>
    /// <param name="endTick">First tick after it.</param>
    /// <param name="output">Takes the answers.</param>
    public void Stop(long endTick, DetectorOutput output)
    {
        _output = output;
        int length = new TickPayload(endTick).Write(_payload);
        long begin = Stopwatch.GetTimestamp();
        while (!_state.IsStopped)
        {
            _line.Send(FrameType.Stop, _payload.AsSpan(0, length));
            _state.IsStopSent = true;
            HearUntilRepeat(static state => state.IsStopped || state.IsForgotten);
            ThrowIfBroken();
            ThrowIfHanging(begin, "did not stop");
        }

        if (_state.MarksReceived > _state.Progress.MarksSent)
        {
            throw new DetectorCrashedException(string.Create(
                CultureInfo.InvariantCulture, $"{_options.Subject} says that it sent {_state.Progress.MarksSent} marks, and {_state.MarksReceived} came"));
        }
    }

    private void SendSamples(int length, long endTick)
    {
        long endNs = _format!.Clock.Nanoseconds(endTick);
        _options.Pacer?.WaitUntil(endNs, _options.Hurry);
        HearUntilCredit();
        _line.Send(FrameType.Samples, _payload.AsSpan(0, length));
        _record.Times.NoteWritten(endTick, Stopwatch.GetTimestamp(), _options.Pacer?.DueTimestamp(endNs));
        WrittenTick = endTick;
    }

    private void HearUntilCredit()
    {
        while (Hear(0))
        {
            // What has come meanwhile, without waiting.
        }

        long begin = Stopwatch.GetTimestamp();
        long heardAt = begin;
        while (!_state.Allows(_line.NextSequence))
        {
            if (Hear(RepeatMs))
            {
                heardAt = Stopwatch.GetTimestamp();
            }
            else if (Stopwatch.GetElapsedTime(heardAt).TotalMilliseconds >= RepeatMs)
            {
                heardAt = Stopwatch.GetTimestamp();
                _line.Send(FrameType.Ask, default);
            }

            ThrowIfBroken();
            ThrowIfHanging(begin, "took no more samples");
        }

        ThrowIfBroken();
    }

    private void HearUntilTaken(long endTick)
    {
        long begin = Stopwatch.GetTimestamp();
        long repeatAt = begin;
        while (_state.TakenTick < endTick)
        {
            Hear(RepeatMs);
            ThrowIfBroken();
            ThrowIfHanging(begin, "did not take the samples of a block");
            if (_state.TakenTick < endTick && Stopwatch.GetElapsedTime(Math.Max(repeatAt, _state.TakenAt)).TotalMilliseconds >= RepeatMs)
            {
                // The last frame may have been lost, or only the answer.
                repeatAt = Stopwatch.GetTimestamp();
                SendTimeMark(endTick);
            }
        }

        _record.Times.NoteTaken(endTick, Stopwatch.GetTimestamp());
    }

    // A frame without samples: what has not come by now is a gap.
    private void SendTimeMark(long tick)
    {
        if (!_state.Allows(_line.NextSequence))
        {
            _line.Send(FrameType.Ask, default);
            return;
        }

        Span<byte> mark = stackalloc byte[TimeMarkBytes];
        SamplesWriter.WriteTimeMark(tick, mark);
        _line.Send(FrameType.Samples, mark);
    }

    // Sends what wants to be accepted until it is.
    private void Request(FrameType type, int length)
    {
        uint first = _line.NextSequence;
        long begin = Stopwatch.GetTimestamp();
        while (true)
        {
            _line.Send(type, _payload.AsSpan(0, length));
            HearUntilRepeat(state => IsAccepted(state, type, first) || IsRefused(state, first));
            if (IsAccepted(_state, type, first))
            {
                return;
            }

            if (IsRefused(_state, first))
            {
                throw new NotSupportedException($"{_options.Subject} refuses ({_state.Trouble!.Value.Code}): {Choices.OneLine.Of(_state.Trouble!.Value.Text)}");
            }

            ThrowIfBroken();
            ThrowIfHanging(begin, $"did not accept {(type == FrameType.Format ? "the format" : type == FrameType.Setup ? "the setup" : "the start")}");
        }
    }

    private static bool IsAccepted(SessionState state, FrameType type, uint first) =>
        state.Accepted.Type == type && unchecked((int)(state.Accepted.Sequence - first)) >= 0;

    private static bool IsRefused(SessionState state, uint first) =>
        state.Trouble is TroublePayload trouble
        && (unchecked((int)(trouble.Sequence - first)) >= 0

            // A board that does not say which frame it means means the one that waits.
            || trouble is { Sequence: 0, Code: TroubleCode.FormatRefused or TroubleCode.SetupRefused });

    // Hears until something has been said or it is time to say the own thing again.
    private void HearUntilRepeat(Func<SessionState, bool> isSaid)
    {
        long begin = Stopwatch.GetTimestamp();
        while (!isSaid(_state))
        {
            int left = RepeatMs - (int)Stopwatch.GetElapsedTime(begin).TotalMilliseconds;
            if (left <= 0 || IsGarbage(MostGarbage))
            {
                return;
            }

            Hear(left);
        }
    }

    private bool Hear(int atMostMs)
    {
        if (!_line.TryReceive(atMostMs, out ArrivedFrame frame))
        {
            return false;
        }

        _taker.Take(frame, _output);
        return true;
    }

    private void ThrowIfBroken()
    {
        if (_state.Fault is string fault)
        {
            throw new DetectorCrashedException($"{_options.Subject} tells of a fault of its own: {Choices.OneLine.Of(fault)}");
        }

        if (_state.IsForgotten)
        {
            throw new SessionForgottenException();
        }

        if (IsGarbage(MostGarbage))
        {
            throw NoFrames();
        }
    }

    private void ThrowIfHanging(long begin, string what)
    {
        if (!IsOver(Math.Max(begin, _state.TakenAt), _options.HangS))
        {
            return;
        }

        throw IsGarbage(LeastGarbage)
            ? NoFrames()
            : new DetectorHungException(string.Create(CultureInfo.InvariantCulture, $"{_options.Subject} {what} within {_options.HangS:0.###} s"));
    }

    private DetectorCrashedException NoFrames() => new(string.Create(
        CultureInfo.InvariantCulture, $"{_options.Subject} sent {_line.Received.BytesSinceFrame} bytes without a valid frame among them"));

    private bool IsGarbage(long least) => _line.Received.BytesSinceFrame >= least;

    private static bool IsOver(long begin, double seconds) => Stopwatch.GetElapsedTime(begin).TotalSeconds >= seconds;

    // Frames of samples are as large as the protocol allows; a board that takes less would lose them one by one.
    private static string? WhatIsWrong(in AboutPayload about) => about switch
    {
        { Version: not FrameLimits.Version } => string.Create(
            CultureInfo.InvariantCulture, $"speaks version {about.Version} of the link protocol; this program speaks {FrameLimits.Version}"),
        { Credit: 0 } => "says that it can hold no frame of samples; it must hold at least one",
        { LargestPayload: < FrameLimits.MaximumPayload } => string.Create(
            CultureInfo.InvariantCulture, $"takes payloads up to {about.LargestPayload} bytes; it must take {FrameLimits.MaximumPayload}"),
        _ => null,
    };

    private string WhyNoHello()
    {
        FrameCounts frames = _line.Received.Frames;
        if (_state.Trouble is { Code: TroubleCode.WrongVersion } || frames.OtherVersion > 0)
        {
            return string.Create(
                CultureInfo.InvariantCulture, $"The {_line.Name}: the other end speaks another version of the link protocol; this program speaks {FrameLimits.Version}.");
        }

        return frames.Good > 0
            ? string.Create(CultureInfo.InvariantCulture, $"The {_line.Name}: the other end sends frames but did not answer hello within {_options.HelloS:0.###} s; reset it.")
            : _options.WhyGone is not null && _line.Received.Bytes == 0
                ? string.Create(CultureInfo.InvariantCulture, $"The {_line.Name} wrote nothing within {_options.HelloS:0.###} s; it must speak the link protocol over its standard input and output.")
                : _line.WhyNoFrame();
    }
}
