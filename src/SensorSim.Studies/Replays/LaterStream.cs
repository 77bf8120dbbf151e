// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>A stream without its beginning: what is left counts ticks, samples and the times of truth from its own begin.</summary>
/// <remarks>
/// A detector that is handed it has seen nothing before. Clocks are as far off as they were: one that drifts has gained its part of what was left out.
/// </remarks>
public sealed class LaterStream : IAcquiredStream
{
    private readonly ReplaySource _source;
    private readonly SampleBlock _inner;
    private readonly long _beginNs;

    /// <summary>Reads up to the begin and forgets it.</summary>
    /// <param name="source">The stream at its start; stays the caller's to let go of.</param>
    /// <param name="startS">Begin [s]; moved to the next instant at which every channel has a sample, less than a second later.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <exception cref="ArgumentOutOfRangeException">The begin lies at or after the end of the stream.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public LaterStream(ReplaySource source, double startS, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(source);
        _source = source;
        BeginTick = Seams.AtOrAfter(Format, Format.Clock.TickAtOrAfter(startS));
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(BeginTick, source.Stream.EndTick, nameof(startS));
        _beginNs = Format.Clock.Nanoseconds(BeginTick);
        _inner = new SampleBlock(Format, Format.Clock.TicksPerSecond);
        Truth = source.Truth is null ? null : new EventRing<TruthEvent>(source.Truth.Capacity);
        Clocks = [.. source.Stream.Clocks.Select(c => c with { OffsetNs = c.LateNs(_beginNs) })];
        source.SkipTo(BeginTick, cancellation);
        TakeTold();
    }

    /// <summary>Tick of the whole stream at which it begins.</summary>
    public long BeginTick { get; }

    /// <inheritdoc/>
    public StreamFormat Format => _source.Stream.Format;

    /// <inheritdoc/>
    public long PositionTick => _source.Stream.PositionTick - BeginTick;

    /// <inheritdoc/>
    public long EndTick => _source.Stream.EndTick == long.MaxValue ? long.MaxValue : _source.Stream.EndTick - BeginTick;

    /// <inheritdoc/>
    public EventRing<AcquisitionEvent> Acquisition { get; } = new(32768);

    /// <inheritdoc/>
    public IReadOnlyList<ChannelClock> Clocks { get; }

    /// <summary>Truth from the begin on; null when there is none.</summary>
    public EventRing<TruthEvent>? Truth { get; }

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        block.Begin(PositionTick, untilTick);
        while (PositionTick < untilTick)
        {
            _source.Stream.Read(_inner, Math.Min(untilTick + BeginTick, _source.Stream.PositionTick + Format.Clock.TicksPerSecond));
            for (int c = 0; c < Format.Channels.Count; c++)
            {
                ShiftedSamples.Append(_inner.Channels[c], block.Channels[c], -(BeginTick / Format.TicksPerSample(c)));
            }

            TakeTold();
        }
    }

    private void TakeTold()
    {
        while (_source.Stream.Acquisition.TryTake(out AcquisitionEvent happened))
        {
            Acquisition.Add(happened with { BeginNs = Math.Max(0, happened.BeginNs - _beginNs), EndNs = Math.Max(0, happened.EndNs - _beginNs) });
        }

        while (_source.Truth is not null && _source.Truth.TryTake(out TruthEvent row))
        {
            Truth!.Add(row with { TimeNs = row.TimeNs - _beginNs });
        }
    }
}
