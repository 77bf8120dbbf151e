// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>A stream that ends where it stands once it is asked to, as if it had never been longer.</summary>
/// <remarks>Asking may happen at any moment; the end moves only inside <see cref="Read"/>, <see cref="Look"/> and <see cref="EndHere"/>, so that it stands still for whoever reads.</remarks>
public sealed class StoppableStream : IAcquiredStream
{
    private readonly IAcquiredStream _inner;
    private readonly CancellationToken _stop;
    private long _endTick;

    /// <summary>Creates a stream.</summary>
    /// <param name="inner">The stream, at its start.</param>
    /// <param name="endTick">Where it ends unless asked before; at most the end of the inner one.</param>
    /// <param name="stop">Asks it to end.</param>
    public StoppableStream(IAcquiredStream inner, long endTick, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(endTick, inner.EndTick);
        _inner = inner;
        _endTick = endTick;
        _stop = stop;
    }

    /// <summary>Whether it was asked to end before it would have.</summary>
    public bool IsStopped { get; private set; }

    /// <inheritdoc/>
    public StreamFormat Format => _inner.Format;

    /// <inheritdoc/>
    public long PositionTick => _inner.PositionTick;

    /// <inheritdoc/>
    public long EndTick => _endTick;

    /// <inheritdoc/>
    public EventRing<AcquisitionEvent> Acquisition => _inner.Acquisition;

    /// <inheritdoc/>
    public IReadOnlyList<ChannelClock> Clocks => _inner.Clocks;

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, _endTick);
        _inner.Read(block, untilTick);
        Look();
    }

    /// <summary>Ends here, for another reason than being asked.</summary>
    public void EndHere() => _endTick = PositionTick;

    /// <summary>Ends here when that was asked.</summary>
    public void Look()
    {
        if (_stop.IsCancellationRequested && PositionTick < _endTick)
        {
            IsStopped = true;
            _endTick = PositionTick;
        }
    }
}
