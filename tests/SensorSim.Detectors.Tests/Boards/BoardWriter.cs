// SPDX-License-Identifier: MIT
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;

namespace SensorSim.Tests.Boards;

/// <summary>What a <see cref="LibraryBoard"/> sends.</summary>
internal sealed class BoardWriter
{
    private readonly FrameWriter _frames = new();
    private readonly byte[] _payload = new byte[FrameLimits.MaximumPayload];
    private readonly byte[] _wire = new byte[FrameLimits.WireBuffer];
    private readonly Mark[] _marks = new Mark[MarkPayload.MaximumCount];
    private int _markCount;
    private ILink? _link;

    /// <summary>Marks that were sent, or that the link took with it.</summary>
    public long MarksSent { get; set; }

    /// <summary>Where everything goes from here on.</summary>
    public void Begin(ILink link) => _link = link;

    public void About(in AboutPayload about) => Send(FrameType.About, about.Write(_payload));

    public void Accepted(FrameType type, uint sequence) => Send(FrameType.Accepted, new AcceptedPayload(type, sequence).Write(_payload));

    public void Progress(FrameType type, in ProgressPayload progress) => Send(type, progress.Write(_payload));

    public void Trouble(TroubleCode code, uint sequence, string text) => Send(FrameType.Trouble, new TroublePayload(code, sequence, text).Write(_payload));

    public void Log(LogLevel level, string text) => Send(FrameType.Log, new LogPayload(level, text).Write(_payload));

    public void Request(in SettingsRequest request) => Send(FrameType.Request, SettingPayload.Write(request, _payload));

    public void Figures(ReadOnlySpan<BoardFigure> figures) => Send(FrameType.Figures, FigurePayload.Write(figures, _payload));

    /// <summary>Gathers a mark; a full frame goes out.</summary>
    public void Mark(in Mark mark)
    {
        _marks[_markCount++] = mark;
        if (_markCount == _marks.Length)
        {
            FlushMarks();
        }
    }

    /// <summary>Sends what was gathered.</summary>
    public void FlushMarks()
    {
        int count = _markCount;
        _markCount = 0;
        MarksSent += count;
        if (count > 0)
        {
            Send(FrameType.Marks, MarkPayload.Write(_marks.AsSpan(0, count), _payload));
        }
    }

    private void Send(FrameType type, int length)
    {
        int bytes = _frames.Write(type, _payload.AsSpan(0, length), _wire);
        _link!.Write(_wire.AsSpan(0, bytes));
    }
}
