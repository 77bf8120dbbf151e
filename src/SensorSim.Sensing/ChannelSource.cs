// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing;

/// <summary>Makes the samples of one channel, forward only; one virtual call for each block.</summary>
/// <remarks>
/// Live knobs latch: the value that a knob has at the instant of sample 64 n of the channel holds for 64 samples. The places are absolute,
/// so no cut changes a bit. A channel none of whose knobs changes latches once, at its first sample. Settings of the sensor change at
/// any sample; whoever calls cuts there.
/// </remarks>
internal abstract class ChannelSource
{
    private readonly SampleGrid _grid;
    private readonly bool _isChanging;
    private readonly bool _areKnobsChanging;
    private bool _hasLatched;
    private long _nextLatch;
    private ushort _settingsWord;

    /// <summary>Creates a source.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="format">Format of the channel.</param>
    /// <param name="grid">Sampling instants of the channel.</param>
    /// <param name="liveKeys">Every knob whose course <see cref="Latch"/> asks for.</param>
    /// <param name="settings">Settings before the first change; for a channel that has none, all 1.</param>
    /// <param name="latchesAlways">Whether <see cref="Latch"/> is called before every 64th sample even when no knob changes.</param>
    protected ChannelSource(
        KeyValues values,
        ChannelFormat format,
        SampleGrid grid,
        IEnumerable<NumberKey> liveKeys,
        ChannelSettings? settings = null,
        bool latchesAlways = false)
    {
        Format = format;
        Settings = settings ?? new ChannelSettings(1, 1, 1, 1);
        _grid = grid;
        _areKnobsChanging = liveKeys.Any(key => !values.Course(key).IsConstant);
        _isChanging = latchesAlways || _areKnobsChanging;
    }

    /// <summary>Creates a copy with the same state.</summary>
    /// <param name="other">What is copied.</param>
    protected ChannelSource(ChannelSource other)
    {
        Format = other.Format;
        Settings = other.Settings;
        _grid = other._grid;
        _isChanging = other._isChanging;
        _areKnobsChanging = other._areKnobsChanging;
        _hasLatched = other._hasLatched;
        LatchNumber = other.LatchNumber;
        _nextLatch = other._nextLatch;
        _settingsWord = other._settingsWord;
    }

    /// <summary>Every how manieth sample is given; 0: none.</summary>
    public int Decimation => Settings.Decimation;

    /// <summary>Format of the channel.</summary>
    public ChannelFormat Format { get; }

    /// <summary>Sampling instants of the channel.</summary>
    protected SampleGrid Grid => _grid;

    /// <summary>The settings that hold for the samples which are made next.</summary>
    protected ChannelSettings Settings { get; private set; }

    /// <summary>Number of the 64 samples whose latch was last; while <see cref="Latch"/> runs, of those to come.</summary>
    protected long LatchNumber { get; private set; }

    /// <summary>Whether the knobs may have other values than at the latch before: at the first one, and where any of them changes.</summary>
    protected bool MayKnobsHaveChanged => _areKnobsChanging || !_hasLatched;

    /// <summary>Where a source tells what it does by itself.</summary>
    public EventRing<AcquisitionEvent>? Acquisition { protected get; set; }

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
                LatchNumber = latch / LiveLatch.Samples;
                Latch(_grid.Seconds(latch));
                _hasLatched = true;
                _nextLatch = _isChanging ? latch + LiveLatch.Samples : long.MaxValue;
            }

            int count = (int)Math.Min(codes.Length - done, _nextLatch - index);
            Make(scratch.Slice(done, count), status.Slice(done, count), index);
            if (ConvertsEachLatch)
            {
                Convert(scratch.Slice(done, count), codes.Slice(done, count), status.Slice(done, count), index);
            }

            if (_settingsWord != 0)
            {
                SpanLanes.Or(status.Slice(done, count), _settingsWord);
            }

            done += count;
        }

        if (!ConvertsEachLatch)
        {
            Convert(scratch[..codes.Length], codes, status, firstIndex);
        }
    }

    /// <summary>Takes over settings before the next sample, and counts them in the status words.</summary>
    /// <param name="settings">What holds from now on.</param>
    /// <param name="seconds">Body time of the first sample that shows them [s].</param>
    internal void ChangeSettings(in ChannelSettings settings, double seconds)
    {
        ChannelSettings before = Settings;
        Settings = settings;
        _settingsWord = unchecked((ushort)(_settingsWord + (1 << StatusWord.SettingsShift)));
        SettingsChanged(before, seconds);
    }

    /// <summary>Shares with an earlier source of the same stream what both would make alike.</summary>
    public virtual void Join(ChannelSource earlier)
    {
    }

    /// <summary>Changes one setting.</summary>
    /// <param name="setting">Which.</param>
    /// <param name="milli">Its value in thousandths of its unit.</param>
    /// <param name="firstIndex">Index of the first sample that shows it: the one made next.</param>
    /// <returns>Whether it is another value than before; if not, nothing changes.</returns>
    public bool Change(SensorSetting setting, int milli, long firstIndex)
    {
        ChannelSettings after = Settings.With(setting, milli);
        if (after == Settings)
        {
            return false;
        }

        ChangeSettings(after, _grid.Seconds(firstIndex));
        return true;
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

    /// <summary>Whether what a latch decides depends on the codes before it; if not, a whole block is converted at once.</summary>
    protected virtual bool ConvertsEachLatch => false;

    /// <summary>Makes samples between two latches.</summary>
    /// <param name="analog">Receives what stands at the converter [unit of the channel].</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    protected abstract void Make(Span<double> analog, Span<ushort> status, long firstIndex);

    /// <summary>Converts what was made, in order, each sample once.</summary>
    /// <param name="analog">What stands at the converter; may be changed.</param>
    /// <param name="codes">Receives the codes.</param>
    /// <param name="status">Receives flags, added to what is there.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    protected abstract void Convert(Span<double> analog, Span<int> codes, Span<ushort> status, long firstIndex);

    /// <summary>Applies the gain of the settings; what stands there is not touched while it is 1.</summary>
    /// <param name="values">Values at the converter [unit of the channel].</param>
    protected void Amplify(Span<double> values)
    {
        double gain = Settings.Gain;
        if (gain == 1)
        {
            return;
        }

        SpanLanes.Multiply(values, gain);
    }
}
