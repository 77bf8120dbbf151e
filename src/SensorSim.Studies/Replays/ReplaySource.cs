// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Replays;

/// <summary>A stream that can be replayed, with its truth when there is any.</summary>
/// <param name="Stream">The stream, at its start.</param>
/// <param name="Truth">Where its truth gathers as it is read; null when there is none.</param>
/// <param name="Owned">What is let go of when the stream is no longer needed; null when it is nothing.</param>
public sealed record ReplaySource(IAcquiredStream Stream, EventRing<TruthEvent>? Truth, IDisposable? Owned = null) : IDisposable
{
    /// <inheritdoc/>
    public void Dispose() => Owned?.Dispose();

    /// <summary>Reads up to a tick and forgets it: what follows is as if it had been read from the beginning.</summary>
    /// <param name="tick">First tick that is not forgotten; at most the end of the stream.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public void SkipTo(long tick, CancellationToken cancellation = default)
    {
        StreamFormat format = Stream.Format;
        ArgumentOutOfRangeException.ThrowIfGreaterThan(tick, Stream.EndTick);
        long second = format.Clock.TicksPerSecond;
        var block = new SampleBlock(format, second);
        long beginNs = format.Clock.Nanoseconds(tick);
        while (Stream.PositionTick < tick)
        {
            cancellation.ThrowIfCancellationRequested();
            Stream.Read(block, Math.Min(tick, Stream.PositionTick + second));
            Forget(Stream.Acquisition, beginNs, static e => e.EndNs);
            if (Truth is not null)
            {
                Forget(Truth, beginNs, static t => t.TimeNs);
            }
        }
    }

    // What the stream tells ahead of its position stays.
    private static void Forget<T>(EventRing<T> ring, long beginNs, Func<T, long> timeOf)
        where T : struct
    {
        for (int left = ring.Count; left > 0; left--)
        {
            if (ring.TryTake(out T item) && timeOf(item) >= beginNs)
            {
                ring.Add(item);
            }
        }
    }
}
