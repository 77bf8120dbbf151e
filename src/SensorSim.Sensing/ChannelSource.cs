// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing;

/// <summary>Makes the samples of one channel, forward only; one virtual call for each block.</summary>
/// <remarks>
/// Live knobs latch: the value that a knob has at the instant of sample 64 n of the channel holds for 64 samples. The places are absolute,
/// so no cut changes a bit. A channel none of whose knobs changes latches once, at its first sample.
/// </remarks>
internal abstract class ChannelSource
{
    private readonly SampleGrid _grid;
    private readonly bool _isChanging;
    private long _nextLatch;

    /// <summary>Creates a source.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="format">Format of the channel.</param>
    /// <param name="grid">Sampling instants of the channel.</param>
    /// <param name="liveKeys">Every knob whose course <see cref="Latch"/> asks for.</param>
    /// <param name="settings">Settings before the first change; for a channel that has none, all 1.</param>
    /// <param name="latchesAlways">Whether <see cref="Latch"/> follows something else than knobs too.</param>
    protected ChannelSource(
        KeyValues values, ChannelFormat format, SampleGrid grid, IEnumerable<NumberKey> liveKeys, ChannelSettings? settings = null,
        bool latchesAlways = false)
    {
        Format = format;
        Settings = settings ?? new ChannelSettings(1, 1, 1, 1);
        _grid = grid;
        _isChanging = latchesAlways || liveKeys.Any(key => !values.Course(key).IsConstant);
    }

    /// <summary>Creates a copy with the same state.</summary>
    /// <param name="other">What is copied.</param>
    protected ChannelSource(ChannelSource other)
    {
        Format = other.Format;
        Settings = other.Settings;
        _grid = other._grid;
        _isChanging = other._isChanging;
        _nextLatch = other._nextLatch;
    }

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    /// <summary>Sampling instants of the channel.</summary>
    protected SampleGrid Grid => _grid;

    /// <summary>The settings that hold for the samples which are made next.</summary>
    protected ChannelSettings Settings { get; private set; }

    /// <summary>Makes samples.</summary>
    /// <param name="scratch">Working space, as long as <paramref name="codes"/>.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives the status words; zeroed before.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Fill(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex)
    {
        for (int done = 0; done < codes.Length;)
        {
            long index = firstIndex + done;
            if (index >= _nextLatch)
            {
                long latch = index - (index % LiveLatch.Samples);
                Latch(_grid.Seconds(latch));
                _nextLatch = _isChanging ? latch + LiveLatch.Samples : long.MaxValue;
            }

            int count = (int)Math.Min(codes.Length - done, _nextLatch - index);
            Make(scratch.Slice(done, count), codes.Slice(done, count), status.Slice(done, count), index);
            done += count;
        }
    }

    /// <summary>Shares with an earlier source of the same stream what both would make alike.</summary>
    public virtual void Join(ChannelSource earlier)
    {
    }

    /// <summary>An independent copy with the same state, fed by a copy of the body.</summary>
    public abstract ChannelSource Copy(BodyModel body);

    /// <summary>Takes the values that the live knobs have at a time; called before the first sample.</summary>
    /// <param name="seconds">Body time [s].</param>
    protected abstract void Latch(double seconds);

    /// <summary>Called when a setting has changed, before the first sample that shows it.</summary>
    /// <param name="before">What held until now.</param>
    /// <param name="seconds">Body time of that sample [s].</param>
    protected virtual void SettingsChanged(in ChannelSettings before, double seconds)
    {
    }

    /// <summary>Makes samples between two latches; arguments as for <see cref="Fill"/>.</summary>
    protected abstract void Make(Span<double> scratch, Span<int> codes, Span<ushort> status, long firstIndex);
}
