// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links;
using SensorSim.Links.Frames;
using SensorSim.Links.Lines;

namespace SensorSim.Detectors.Boards;

/// <summary>A link with frames on it: one thread of its own reads, the caller writes. Outlives sessions, not the link.</summary>
internal sealed class BoardLine : IDisposable
{
    private const int JoinMs = 2000;
    private static readonly TimeSpan s_look = TimeSpan.FromMilliseconds(100);

    private readonly ILink _link;
    private readonly FrameInbox _inbox = new();
    private readonly FrameReader _reader = new();
    private readonly byte[] _wire = new byte[FrameLimits.WireBuffer];
    private readonly Lock _countGate = new();
    private readonly Thread _thread;
    private FrameWriter _writer = new();
    private FrameCounts _received;
    private long _bytesReceived;
    private long _bytesSinceFrame;
    private volatile bool _isClosed;

    /// <summary>Begins to read a link.</summary>
    /// <param name="link">The link; disposed of with the line.</param>
    public BoardLine(ILink link)
    {
        _link = link;
        _thread = new Thread(ReadToTheEnd) { IsBackground = true, Name = "board line" };
        _thread.Start();
    }

    /// <summary>What the link is called.</summary>
    public string Name => _link.Name;

    /// <summary>Frames sent.</summary>
    public long FramesSent { get; private set; }

    /// <summary>Bytes sent.</summary>
    public long BytesSent { get; private set; }

    /// <summary>Number of the next frame.</summary>
    public uint NextSequence => _writer.NextSequence;

    /// <summary>What has come: frames as counted, bytes in all, bytes since the last sound frame.</summary>
    public (FrameCounts Frames, long Bytes, long BytesSinceFrame) Received
    {
        get
        {
            lock (_countGate)
            {
                return (_received, _bytesReceived, _bytesSinceFrame);
            }
        }
    }

    /// <summary>The next frame sent has a number of the caller's choice.</summary>
    /// <param name="firstSequence">The number.</param>
    public void NumberFrom(uint firstSequence) => _writer = new FrameWriter(firstSequence);

    /// <summary>Sends a frame.</summary>
    /// <returns>Its number.</returns>
    /// <exception cref="LinkLostException">The other end is gone.</exception>
    public uint Send(FrameType type, ReadOnlySpan<byte> payload)
    {
        uint sequence = _writer.NextSequence;
        int length = _writer.Write(type, payload, _wire);
        _link.Write(_wire.AsSpan(0, length));
        FramesSent++;
        BytesSent += length;
        return sequence;
    }

    /// <summary>The next frame that has come; its payload is valid until the next call.</summary>
    /// <param name="atMostMs">How long to wait [ms]; 0 looks only.</param>
    /// <param name="frame">The frame.</param>
    /// <exception cref="LinkLostException">The other end is gone, and all that it sent has been taken.</exception>
    public bool TryReceive(int atMostMs, out ArrivedFrame frame)
    {
        if (_inbox.TryTake(atMostMs, out frame, out Exception? failure))
        {
            return true;
        }

        return failure is null ? false : throw new LinkLostException(failure.Message, failure);
    }

    /// <summary>One sentence for when no frame has ever come.</summary>
    public string WhyNoFrame()
    {
        var watch = new FirstFrameWatch(_link);
        watch.Add((int)Math.Min(int.MaxValue, Received.Bytes));
        return watch.Sentence();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _isClosed = true;
        _inbox.Close();
        _link.Dispose();
        _thread.Join(JoinMs);
    }

    private void ReadToTheEnd()
    {
        byte[] bytes = new byte[4096];
        try
        {
            while (!_isClosed)
            {
                int count = _link.Read(bytes, s_look);
                if (count > 0 && !Take(bytes.AsSpan(0, count)))
                {
                    return;
                }
            }
        }
        catch (Exception e)
        {
            // Whatever it is, it must reach the one who waits, not the runtime.
            _inbox.Fail(e);
        }
    }

    private bool Take(ReadOnlySpan<byte> bytes)
    {
        long now = Stopwatch.GetTimestamp();
        long sound = _reader.Counts.Good + _reader.Counts.Repeated;
        int left = bytes.Length;
        while (_reader.TryRead(ref bytes, out Frame frame))
        {
            // Counted before it is handed on: who has the last frame sees the last counts.
            Count(left - bytes.Length, ref sound);
            left = bytes.Length;
            if (!_inbox.Put(frame, now))
            {
                return false;
            }
        }

        Count(left, ref sound);
        return true;
    }

    private void Count(int bytes, ref long sound)
    {
        FrameCounts counts = _reader.Counts;
        lock (_countGate)
        {
            _received = counts;
            _bytesReceived += bytes;
            _bytesSinceFrame = counts.Good + counts.Repeated > sound ? 0 : _bytesSinceFrame + bytes;
        }

        sound = counts.Good + counts.Repeated;
    }
}
