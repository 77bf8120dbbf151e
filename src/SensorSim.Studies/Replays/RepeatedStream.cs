// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>A stream that begins anew each time it has ended, without an end of its own; ticks, sample numbers and truth go on.</summary>
/// <remarks>
/// A round is as long as the stream, made longer where needed so that every channel begins the next round with a whole sample: less than a
/// second, in which there are no samples. At the seam the body jumps; a detector is not told.
/// </remarks>
public sealed class RepeatedStream : IAcquiredStream, IDisposable
{
    private readonly Func<ReplaySource> _open;
    private readonly SampleBlock _inner;
    private readonly long _roundTicks;
    private readonly long _streamTicks;
    private ReplaySource _source;
    private long _roundBegin;

    /// <summary>Opens the stream for its first round.</summary>
    /// <param name="open">Opens it anew; it has an end, and each time the same format.</param>
    /// <exception cref="NotSupportedException">A clock of the stream drifts: a seam would set it back, and its times could not be scored.</exception>
    public RepeatedStream(Func<ReplaySource> open)
    {
        ArgumentNullException.ThrowIfNull(open);
        _open = open;
        _source = open();
        Format = _source.Stream.Format;
        if (_source.Stream.Clocks.Any(c => c.Ppm != 0))
        {
            _source.Dispose();
            throw new NotSupportedException("a stream whose clocks run fast or slow cannot be repeated, since each seam would set them back; use --endless with a scenario, or a clock without drift");
        }

        _streamTicks = _source.Stream.EndTick;
        _roundTicks = Seams.AtOrAfter(Format, _streamTicks);
        _inner = new SampleBlock(Format, Format.Clock.TicksPerSecond);
        Truth = _source.Truth is null ? null : new EventRing<TruthEvent>(_source.Truth.Capacity);
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick => long.MaxValue;

    /// <inheritdoc/>
    public EventRing<AcquisitionEvent> Acquisition { get; } = new(32768);

    /// <inheritdoc/>
    public IReadOnlyList<ChannelClock> Clocks => _source.Stream.Clocks;

    /// <summary>Truth of all rounds; null when there is none.</summary>
    public EventRing<TruthEvent>? Truth { get; }

    /// <summary>Rounds begun.</summary>
    public long RoundCount { get; private set; } = 1;

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        block.Begin(PositionTick, untilTick);
        while (PositionTick < untilTick)
        {
            if (PositionTick == _roundBegin + _roundTicks)
            {
                BeginRound();
            }

            long end = Math.Min(Math.Min(untilTick, _roundBegin + _roundTicks), PositionTick + Format.Clock.TicksPerSecond);
            long innerEnd = Math.Min(end - _roundBegin, _streamTicks);
            if (innerEnd > _source.Stream.PositionTick)
            {
                _source.Stream.Read(_inner, innerEnd);
                CopySamples(block);
                TakeTold();
            }

            PositionTick = end;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _source.Dispose();

    private void BeginRound()
    {
        _source.Dispose();
        _source = _open();
        _roundBegin += _roundTicks;
        RoundCount++;
    }

    private void CopySamples(SampleBlock block)
    {
        for (int c = 0; c < Format.Channels.Count; c++)
        {
            ShiftedSamples.Append(_inner.Channels[c], block.Channels[c], _roundBegin / Format.TicksPerSample(c));
        }
    }

    // What lies behind the seam belongs to no round.
    private void TakeTold()
    {
        long beginNs = Format.Clock.Nanoseconds(_roundBegin);
        long streamNs = Format.Clock.Nanoseconds(_streamTicks);
        while (_source.Stream.Acquisition.TryTake(out AcquisitionEvent happened))
        {
            if (happened.BeginNs < streamNs)
            {
                Acquisition.Add(happened with { BeginNs = happened.BeginNs + beginNs, EndNs = Math.Min(happened.EndNs, streamNs) + beginNs });
            }
        }

        while (_source.Truth is not null && _source.Truth.TryTake(out TruthEvent row))
        {
            if (row.TimeNs < streamNs)
            {
                Truth!.Add(row with { TimeNs = row.TimeNs + beginNs });
            }
        }
    }
}
