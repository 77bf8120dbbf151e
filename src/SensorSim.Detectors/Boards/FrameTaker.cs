// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Boards;

/// <summary>Puts what comes from a board where it belongs. Nothing but lines of a log, troubles and figures allocates.</summary>
internal sealed class FrameTaker
{
    private readonly SessionState _state;
    private readonly BoardRecord _record;
    private readonly Mark[] _marks = new Mark[MarkPayload.MaximumCount];

    public FrameTaker(SessionState state, BoardRecord record)
    {
        _state = state;
        _record = record;
    }

    /// <summary>The stream at hand; null before the first one.</summary>
    public StreamFormat? Format { get; set; }

    /// <summary>Takes a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="output">Takes answers.</param>
    public void Take(in ArrivedFrame frame, DetectorOutput output)
    {
        if (frame.Type == FrameType.About)
        {
            TakeAbout(frame.Payload);
            return;
        }

        // What comes before the board has answered hello belongs to nobody; a fault it may tell at any time.
        bool isRead = frame.Type switch
        {
            FrameType.Log => TakeLog(frame.Payload),
            FrameType.Trouble => TakeTrouble(frame.Payload),
            _ when _state.About is null => true,
            FrameType.Accepted => TakeAccepted(frame.Payload),
            FrameType.Progress => TakeProgress(frame, isStop: false),
            FrameType.Stopped => TakeProgress(frame, isStop: true),
            FrameType.Marks => TakeMarks(frame, output),
            FrameType.Request => TakeRequest(frame.Payload, output),
            FrameType.Figures => _record.AddFigures(frame.Payload),
            _ => true,
        };
        if (!isRead)
        {
            throw new DetectorCrashedException($"The detector sent a frame of type {(int)frame.Type:X2} whose content is not what docs/link-protocol.md says");
        }
    }

    private void TakeAbout(ReadOnlySpan<byte> payload)
    {
        // One of a session before may still have been on its way.
        if (AboutPayload.TryRead(payload, out AboutPayload about) && about.Session == _state.Session && _state.About is null)
        {
            _state.About = about;

            // What came before is about frames of a session before, whose numbers are no longer used.
            _state.Trouble = null;
            _state.Fault = null;
        }
    }

    private bool TakeLog(ReadOnlySpan<byte> payload)
    {
        if (!LogPayload.TryRead(payload, out LogPayload log))
        {
            return false;
        }

        _record.AddLine(log.Level, log.Text);
        return true;
    }

    private bool TakeTrouble(ReadOnlySpan<byte> payload)
    {
        if (!TroublePayload.TryRead(payload, out TroublePayload trouble))
        {
            return false;
        }

        _record.Troubles++;
        _record.AddLine(LogLevel.Warning, $"trouble {(int)trouble.Code} with frame {trouble.Sequence}: {trouble.Text}");
        _state.Trouble = trouble;
        if (trouble.Code == TroubleCode.BoardFault)
        {
            _state.Fault = trouble.Text;
        }

        if (trouble.Code == TroubleCode.NotStarted && _state.IsStarted && unchecked((int)(trouble.Sequence - _state.StartSequence)) > 0)
        {
            _state.IsForgotten = true;
        }

        return true;
    }

    private bool TakeAccepted(ReadOnlySpan<byte> payload)
    {
        bool isRead = AcceptedPayload.TryRead(payload, out AcceptedPayload accepted);
        _state.Accepted = accepted;
        return isRead;
    }

    private bool TakeProgress(in ArrivedFrame frame, bool isStop)
    {
        if (!ProgressPayload.TryRead(frame.Payload, out ProgressPayload progress))
        {
            return false;
        }

        if (progress.Session != _state.Session)
        {
            _state.IsForgotten |= _state.IsStarted;
            return true;
        }

        if (isStop && !_state.IsStopSent)
        {
            throw new DetectorCrashedException("The detector says that it has stopped, and nobody told it to");
        }

        _state.Note(progress, frame.ArrivedAt);
        _state.IsStopped |= isStop;
        return true;
    }

    private bool TakeMarks(in ArrivedFrame frame, DetectorOutput output)
    {
        if (Format is null || !MarkPayload.TryRead(frame.Payload, Format, _marks, out int count))
        {
            return false;
        }

        foreach (ref readonly Mark mark in _marks.AsSpan(0, count))
        {
            _state.MarksReceived++;
            if (mark.EmittedTick < _state.BeginTick)
            {
                // A board that began anew in the middle of a stream makes up its mind about the time before, of which it has seen nothing.
                continue;
            }

            _record.Times.NoteMark(mark.EmittedTick, frame.ArrivedAt);
            output.Marks.Add(mark);
        }

        return true;
    }

    private static bool TakeRequest(ReadOnlySpan<byte> payload, DetectorOutput output)
    {
        if (!SettingPayload.TryRead(payload, out SettingsRequest request))
        {
            return false;
        }

        output.Requests.Add(request);
        return true;
    }
}
