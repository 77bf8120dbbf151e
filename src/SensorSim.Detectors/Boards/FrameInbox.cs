// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Detectors.Boards;

/// <summary>A frame as it lies in the inbox.</summary>
/// <param name="type">What the payload is.</param>
/// <param name="sequence">Number of the frame.</param>
/// <param name="payload">The payload; valid until the next frame is taken.</param>
/// <param name="arrivedAt">When its last byte had come [ticks of the stopwatch].</param>
internal readonly ref struct ArrivedFrame(FrameType type, uint sequence, ReadOnlySpan<byte> payload, long arrivedAt)
{
    public FrameType Type { get; } = type;

    public uint Sequence { get; } = sequence;

    public ReadOnlySpan<byte> Payload { get; } = payload;

    public long ArrivedAt { get; } = arrivedAt;
}

/// <summary>Frames between the thread that reads a line and the one that uses them. Full, it makes the reading thread wait.</summary>
internal sealed class FrameInbox
{
    private const int Capacity = 512;

    private readonly object _gate = new();
    private readonly byte[] _payloads = new byte[Capacity * FrameLimits.MaximumPayload];
    private readonly (FrameType Type, uint Sequence, int Length, long ArrivedAt)[] _heads = new (FrameType, uint, int, long)[Capacity];
    private int _first;
    private int _count;
    private bool _isFirstOut;
    private bool _isClosed;
    private Exception? _failure;

    /// <summary>Puts a frame in; waits for room.</summary>
    /// <returns>Whether anybody still wants frames.</returns>
    public bool Put(in Frame frame, long arrivedAt)
    {
        lock (_gate)
        {
            while (_count == Capacity && !_isClosed)
            {
                Monitor.Wait(_gate);
            }

            int at = (_first + _count) % Capacity;
            _heads[at] = (frame.Type, frame.Sequence, frame.Payload.Length, arrivedAt);
            frame.Payload.CopyTo(_payloads.AsSpan(at * FrameLimits.MaximumPayload));
            _count++;
            Monitor.PulseAll(_gate);
            return !_isClosed;
        }
    }

    /// <summary>No more frames come; what is there can still be taken.</summary>
    public void Fail(Exception failure)
    {
        lock (_gate)
        {
            _failure ??= failure;
            Monitor.PulseAll(_gate);
        }
    }

    /// <summary>Nobody wants frames any more.</summary>
    public void Close()
    {
        lock (_gate)
        {
            _isClosed = true;
            Monitor.PulseAll(_gate);
        }
    }

    /// <summary>Takes the oldest frame out.</summary>
    /// <param name="atMost">How long to wait for one [ms]; 0 looks only.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="failure">Why no more will come, when the inbox is empty for that reason.</param>
    public bool TryTake(int atMost, out ArrivedFrame frame, out Exception? failure)
    {
        lock (_gate)
        {
            // The one handed out last is free from here on.
            if (_isFirstOut)
            {
                _isFirstOut = false;
                _first = (_first + 1) % Capacity;
                _count--;
                Monitor.PulseAll(_gate);
            }

            if (_count == 0 && atMost > 0 && _failure is null)
            {
                Monitor.Wait(_gate, atMost);
            }

            failure = _count == 0 ? _failure : null;
            if (_count == 0)
            {
                frame = default;
                return false;
            }

            (FrameType type, uint sequence, int length, long arrivedAt) = _heads[_first];
            frame = new ArrivedFrame(type, sequence, _payloads.AsSpan(_first * FrameLimits.MaximumPayload, length), arrivedAt);
            _isFirstOut = true;
            return true;
        }
    }
}
