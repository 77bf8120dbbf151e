// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Boards.Capturing;

/// <summary>A board's own samples as a stream: live, of an end that is known only once it has come.</summary>
/// <remarks>
/// A frame that was lost or damaged is a gap. The stream ends after the duration, when it is told to stop, and where the line or the board
/// fails (<see cref="EndedBecause"/>): what came until then is kept. <see cref="Finish"/> tells the board. Nothing is allocated per frame.
/// </remarks>
public sealed class BoardCapture : ISampleStream, IDisposable
{
    // A reader asks for at most a second, frames span at most a tenth.
    private const int RoomSeconds = 2;
    private const int LookMs = 100;
    private const int FinishMs = 2000;

    // A board whose clock jumps by more than this has lost it.
    private const long LongestGapSeconds = 86_400;

    private readonly CaptureOptions _options;
    private readonly BoardLine _line;
    private readonly BoardRecord _record;
    private readonly byte[] _payload = new byte[FrameLimits.MaximumPayload];
    private readonly byte[] _waiting = new byte[FrameLimits.MaximumPayload];
    private readonly SamplesReader _samples;
    private HeldSamples _held;
    private HeldSamples _spare;
    private int _waitingLength;
    private long _takenTick;
    private long _heardAt;
    private long _samplesFrames;
    private long _unusable;

    /// <summary>Greets the board and has it send its samples.</summary>
    /// <param name="link">The link; disposed of with this.</param>
    /// <param name="options">How.</param>
    /// <exception cref="LinkUnavailableException">Nobody answers, or the board cannot send samples of its own; the message says what would be right.</exception>
    /// <exception cref="OperationCanceledException">It was stopped before the first sample.</exception>
    public BoardCapture(ILink link, CaptureOptions options)
    {
        ArgumentNullException.ThrowIfNull(link);
        ArgumentNullException.ThrowIfNull(options);
        _options = options;
        var ofBoard = new BoardOptions { HelloS = options.HelloS, OnLog = options.OnLog };
        _record = new BoardRecord(ofBoard);
        _line = new BoardLine(link);
        try
        {
            AboutPayload about = new BoardSession(_line, ofBoard, _record).SayHello();
            About = BoardIdentity.Of(about);
            Format = AskForSamples();
        }
        catch (LinkLostException e)
        {
            _line.Dispose();
            throw new LinkUnavailableException(e.Message, e);
        }
        catch
        {
            _line.Dispose();
            throw;
        }

        _samples = new SamplesReader(Format);
        _held = new HeldSamples(Format, RoomTicks);
        _spare = new HeldSamples(Format, RoomTicks);
        _held.Begin(0, RoomTicks);
        EndTick = options.DurationS is double seconds ? Format.Clock.TickAtOrAfter(seconds) : long.MaxValue;
        _heardAt = Stopwatch.GetTimestamp();
    }

    /// <summary>Who the board says it is.</summary>
    public BoardIdentity About { get; }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <summary>First tick after the end; <see cref="long.MaxValue"/> while it is not known. It moves only while the stream is read.</summary>
    public long EndTick { get; private set; }

    /// <summary>Why the stream ended before it was to, one sentence; null when it did not.</summary>
    public string? EndedBecause { get; private set; }

    /// <summary>What came.</summary>
    public CaptureCounts Counts
    {
        get
        {
            (FrameCounts frames, long bytes, _) = _line.Received;
            return new CaptureCounts(frames.Good, _samplesFrames, frames.Damaged, frames.Missing, frames.Repeated, _unusable, bytes);
        }
    }

    /// <summary>Reads what the board sends until a tick, as it comes; less when the stream ends before.</summary>
    /// <param name="block">Receives the samples; made for the same format.</param>
    /// <param name="untilTick">First tick after the stretch; at most a second after the position.</param>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, PositionTick + Format.Clock.TicksPerSecond);
        while (_takenTick < untilTick && EndTick > _takenTick)
        {
            Hear();
        }

        block.Begin(PositionTick, Math.Min(untilTick, EndTick));
        PositionTick = block.EndTick;
        _held.HandOut(block, PositionTick);

        // What is left begins the next stretch.
        _held.HandOut(_spare.Begin(PositionTick, PositionTick + RoomTicks), _held.Samples.EndTick);
        (_held, _spare) = (_spare, _held);
        TakeWaiting();
    }

    /// <summary>Tells the board to stop; to be called once the stream has been read.</summary>
    public void Finish()
    {
        if (EndedBecause is not null)
        {
            return;
        }

        try
        {
            int length = new TickPayload(PositionTick).Write(_payload);
            long begin = Stopwatch.GetTimestamp();
            while (Stopwatch.GetElapsedTime(begin).TotalMilliseconds < FinishMs)
            {
                _line.Send(FrameType.Stop, _payload.AsSpan(0, length));
                long sentAt = Stopwatch.GetTimestamp();
                while (Stopwatch.GetElapsedTime(sentAt).TotalMilliseconds < BoardSession.RepeatMs)
                {
                    if (!_line.TryReceive(LookMs, out ArrivedFrame frame))
                    {
                        continue;
                    }

                    if (frame.Type == FrameType.Stopped)
                    {
                        return;
                    }

                    NoteLog(frame);
                }
            }
        }
        catch (LinkLostException)
        {
            // All samples are here; a board that is gone has stopped, too.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _line.Dispose();

    private long RoomTicks => RoomSeconds * Format.Clock.TicksPerSecond;

    private bool HasRoomFor(in SamplesPayload samples) => samples.EndTick <= _held.Samples.EndTick;

    private void Hear()
    {
        if (_options.Stop.IsCancellationRequested)
        {
            EndTick = _takenTick;
            return;
        }

        try
        {
            if (_line.TryReceive(LookMs, out ArrivedFrame frame))
            {
                NoteLog(frame);
                if (frame.Type == FrameType.Samples)
                {
                    TakeSamples(frame.Payload);
                }
                else if (frame.Type == FrameType.Trouble && TroublePayload.TryRead(frame.Payload, out TroublePayload trouble) && trouble.Code == TroubleCode.BoardFault)
                {
                    End($"the board tells of a fault of its own: {Choices.OneLine.Of(trouble.Text)}");
                }
            }
            else if (Stopwatch.GetElapsedTime(_heardAt).TotalSeconds >= _options.SilenceS)
            {
                End(string.Create(CultureInfo.InvariantCulture, $"the board sent no samples for {_options.SilenceS:0.###} s"));
            }
        }
        catch (LinkLostException e)
        {
            End(e.Message.TrimEnd('.'));
        }
    }

    private void End(string why)
    {
        EndedBecause = why;
        EndTick = _takenTick;
    }

    private void TakeSamples(ReadOnlySpan<byte> payload)
    {
        if (!_samples.TryRead(payload, out SamplesPayload samples, out _)
            || samples.BeginTick < _takenTick
            || samples.BeginTick - _takenTick > LongestGapSeconds * Format.Clock.TicksPerSecond)
        {
            _unusable++;
            return;
        }

        _heardAt = Stopwatch.GetTimestamp();
        _samplesFrames++;
        _takenTick = samples.EndTick;
        if (HasRoomFor(samples))
        {
            samples.AppendTo(_held.Samples);
            return;
        }

        // It begins after what is being read: a long gap. It finds room once the reader has come nearer.
        payload.CopyTo(_waiting);
        _waitingLength = payload.Length;
    }

    private void TakeWaiting()
    {
        if (_waitingLength > 0 && _samples.TryRead(_waiting.AsSpan(0, _waitingLength), out SamplesPayload samples, out _) && HasRoomFor(samples))
        {
            samples.AppendTo(_held.Samples);
            _waitingLength = 0;
        }
    }

    private void NoteLog(in ArrivedFrame frame)
    {
        if (frame.Type == FrameType.Log && LogPayload.TryRead(frame.Payload, out LogPayload log))
        {
            _record.AddLine(log.Level, log.Text);
        }
    }

    // Repeats the wish until it was accepted and every channel has been told.
    private StreamFormat AskForSamples()
    {
        var gatherer = new FormatGatherer();
        bool isAccepted = false;
        string problem = "the board did not accept it";
        long begin = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(begin).TotalSeconds < _options.HelloS)
        {
            _line.Send(FrameType.Capture, _payload.AsSpan(0, CapturePayload.Write(_payload)));
            long sentAt = Stopwatch.GetTimestamp();
            while (Stopwatch.GetElapsedTime(sentAt).TotalMilliseconds < BoardSession.RepeatMs)
            {
                _options.Stop.ThrowIfCancellationRequested();
                if (!_line.TryReceive(LookMs, out ArrivedFrame frame))
                {
                    continue;
                }

                NoteLog(frame);
                switch (frame.Type)
                {
                    case FrameType.Accepted when AcceptedPayload.TryRead(frame.Payload, out AcceptedPayload accepted) && accepted.Type == FrameType.Capture:
                        isAccepted = true;
                        problem = "the board did not tell its channels";
                        break;
                    case FrameType.Format when !gatherer.TryAdd(frame.Payload, out string? wrong):
                        problem = $"the board's format is none: {wrong}";
                        break;
                    case FrameType.Trouble when TroublePayload.TryRead(frame.Payload, out TroublePayload trouble):
                        throw new LinkUnavailableException(
                            $"{_line.Name}: the board cannot send samples of its own ({trouble.Code}: {Choices.OneLine.Of(trouble.Text)}); use a firmware that samples");
                    default:
                        break;
                }

                if (isAccepted && gatherer.Format is StreamFormat format)
                {
                    return format;
                }
            }
        }

        throw new LinkUnavailableException($"{_line.Name}: the board was asked for its samples, but {problem}; use a firmware that samples");
    }
}
