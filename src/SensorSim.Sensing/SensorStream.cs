// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Acquisition;
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing;

/// <summary>The sensor on the body: ECG, red, infrared, green if there is any and dark slots, and three axes of acceleration, as codes.</summary>
/// <remarks>
/// The same values and seed give the same codes on every machine and for every sequence of cuts. A copy (<see cref="Copy"/>) goes on
/// from the same place and gives the same samples.
/// </remarks>
public sealed class SensorStream : IToldStream
{
    /// <summary>Acquisition events that wait for a reader; what comes on top is counted as overflow.</summary>
    public const int AcquisitionCapacity = 32768;

    /// <summary>How far the clocks of two devices may come apart [s]: twice as long as this lies in the body's ring at any heart rate.</summary>
    public const double LargestLagSeconds = 20;

    private readonly BodyModel _body;
    private readonly ChannelSource[] _sources;
    private readonly ChannelWatch[] _watches;
    private readonly ushort[] _givenFlags;
    private readonly ChannelDelivery[] _deliveries;
    private readonly Device[] _devices;
    private readonly SettingsSchedule _schedule;
    private readonly double[] _scratch;
    private readonly int[] _codes;
    private readonly ushort[] _status;
    private readonly long _stretchTicks;
    private HeldSamples? _ahead;

    /// <summary>Creates a stream.</summary>
    /// <param name="values">Values of the scenario; not changed afterwards.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="durationSeconds">Length [s], above 0; infinity for an endless stream.</param>
    /// <param name="settings">Changes of the sensor's settings while it runs, in any order; of the same time the later one wins.</param>
    /// <exception cref="ArgumentException">A change speaks of what the stream does not have, or its value is out of range.</exception>
    public SensorStream(KeyValues values, ulong seed, double durationSeconds, IReadOnlyList<SettingChange>? settings = null)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(durationSeconds);
        _body = new BodyModel(values, seed, OpticalSlots.HasGreen(values));
        WanderingPhase mains = MainsSupply.Create(values, seed);
        var axes = new AxisMovement(values, _body.Movement);
        _sources =
        [
            new EcgSource(values, seed, _body, mains),
            .. OpticalSlots.Order(values).Select(name => Slot(values, seed, mains, name)),
            new AxisSource(values, seed, _body.Movement, axes, ChannelName.AccelX),
            new AxisSource(values, seed, _body.Movement, axes, ChannelName.AccelY),
            new AxisSource(values, seed, _body.Movement, axes, ChannelName.AccelZ),
        ];
        JoinSources();
        Format = new StreamFormat([.. _sources.Select(s => s.Format)]);
        _watches = [.. _sources.Select(s => new ChannelWatch(s.Format))];
        _givenFlags = [.. _sources.Select(s => GivenFlags.Of(values, s.Format.Name))];
        Clocks = [.. _sources.Select(s => Device.Of(values, s.Format.Name).ClockOf(s.Format.Name))];
        _deliveries = [.. _sources.Select(s => new ChannelDelivery(values, seed, s.Format))];
        JoinDeliveries();
        _devices = [.. _sources.Select(s => Device.Of(values, s.Format.Name)).DistinctBy(d => d.IsSecond)];
        _schedule = new SettingsSchedule(values, Format, settings ?? []);
        _stretchTicks = Stretch.Ticks(Format);
        _scratch = new double[Format.Channels.Max(c => Stretch.MostSamples(c.RateHz))];
        _codes = new int[_scratch.Length];
        _status = new ushort[_scratch.Length];
        Acquisition = new EventRing<AcquisitionEvent>(AcquisitionCapacity);
        Array.ForEach(_sources, s => s.Acquisition = Acquisition);
        EndTick = double.IsPositiveInfinity(durationSeconds) ? long.MaxValue : Format.Clock.TickAtOrAfter(durationSeconds);
    }

    private SensorStream(SensorStream other)
    {
        _body = other._body.Copy();
        _sources = Array.ConvertAll(other._sources, s => s.Copy(_body));
        JoinSources();
        Format = other.Format;
        _watches = Array.ConvertAll(other._watches, w => w.Copy());
        _givenFlags = other._givenFlags;
        Clocks = other.Clocks;
        _deliveries = Array.ConvertAll(other._deliveries, d => d.Copy());
        JoinDeliveries();
        _devices = other._devices;
        _schedule = other._schedule.Copy();
        _stretchTicks = other._stretchTicks;
        _ahead = other._ahead?.Copy();
        _scratch = new double[other._scratch.Length];
        _codes = new int[_scratch.Length];
        _status = new ushort[_scratch.Length];
        Acquisition = other.Acquisition.Copy();
        Array.ForEach(_sources, s => s.Acquisition = Acquisition);
        EndTick = other.EndTick;
        PositionTick = other.PositionTick;
    }

    /// <inheritdoc/>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public long PositionTick { get; private set; }

    /// <inheritdoc/>
    public long EndTick { get; }

    /// <summary>
    /// Truth of the body; complete up to the position after each read, and somewhat beyond. The reader takes rows out; at most
    /// <see cref="BodyModel.TruthCapacity"/> wait, so read in blocks of at most a minute when truth matters.
    /// </summary>
    public EventRing<TruthEvent> Truth => _body.Truth;

    /// <inheritdoc/>
    /// <remarks>At most <see cref="AcquisitionCapacity"/> events wait: those of 2.56 s with a thousand settings a second and every channel at fault.</remarks>
    public EventRing<AcquisitionEvent> Acquisition { get; }

    /// <inheritdoc/>
    public IReadOnlyList<ChannelClock> Clocks { get; }

    /// <inheritdoc/>
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        if (_ahead is null)
        {
            Make(block, PositionTick, untilTick);
            PositionTick = untilTick;
            return;
        }

        while (PositionTick < untilTick)
        {
            if (PositionTick == _ahead.Samples.EndTick)
            {
                long end = Math.Min(EndTick, StretchEnd(PositionTick));
                Make(_ahead.Begin(PositionTick, end), PositionTick, end);
            }

            PositionTick = Math.Min(untilTick, _ahead.Samples.EndTick);
            _ahead.HandOut(block, PositionTick);
        }
    }

    /// <inheritdoc/>
    /// <remarks>From here on a whole stretch of 2.56 s is made whenever the first of its samples is asked for, its truth and its acquisition events with it.</remarks>
    public void KeepSettings()
    {
        if (_ahead is null)
        {
            _ahead = new HeldSamples(Format, _stretchTicks);
            _ahead.Begin(PositionTick, PositionTick);
        }
    }

    // Stretches end at multiples of their length, wherever reading began.
    private long StretchEnd(long tick) => (tick / _stretchTicks * _stretchTicks) + _stretchTicks;

    private void Make(SampleBlock block, long from, long untilTick)
    {
        while (from < untilTick)
        {
            long end = Math.Min(untilTick, StretchEnd(from));
            for (int c = 0; c < _sources.Length; c++)
            {
                // Cut where a setting changes: between two cuts the settings of a channel stand still.
                long first = Format.FirstSampleAtOrAfter(c, from);
                long last = Format.FirstSampleAtOrAfter(c, end);
                while (first < last)
                {
                    ChannelSchedule changes = _schedule[c];
                    if (changes.NextSample <= first)
                    {
                        changes.Apply(first, _sources[c], SampleNs(c, first), Acquisition);
                    }

                    int count = (int)(Math.Min(last, changes.NextSample) - first);
                    Span<int> codes = _codes.AsSpan(0, count);
                    Span<ushort> status = _status.AsSpan(0, count);
                    status.Clear();
                    _sources[c].Fill(_scratch.AsSpan(0, count), codes, status, first);
                    AnalogTap?.Invoke(_sources[c].Format.Name, first, _scratch.AsSpan(0, count));
                    _watches[c].See(status, first, Acquisition);
                    GivenFlags.Keep(status, _givenFlags[c]);
                    Deliver(c, codes, status, first, block.Channels[c]);
                    first += count;
                }
            }

            from = end;
            _body.PlanUntil(LatestBodySeconds(Format.Clock.Seconds(end)) + BodyModel.LeadSeconds);
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<SettingsRequest> Planned => _schedule.Planned;

    /// <inheritdoc/>
    public SettingLimits Limits(int channel, SensorSetting setting) => _schedule.Limits(channel, setting);

    /// <inheritdoc/>
    public bool Schedule(in SettingsRequest change) => _ahead is null
        ? _schedule.Add(change, PositionTick)
        : throw new InvalidOperationException("The settings were to be kept; what a change would alter may have been made.");

    /// <summary>Sees the analog values of every channel as they stand at the converter: signals at infinite resolution.</summary>
    internal AnalogTap? AnalogTap { get; set; }

    /// <summary>An independent stream that goes on from the same place and gives the same samples and truth.</summary>
    public SensorStream Copy() => new(this);

    private long SampleNs(int channel, long sample) => Format.Clock.Nanoseconds(sample * Format.TicksPerSample(channel));

    private void Deliver(int channel, Span<int> codes, Span<ushort> status, long first, ChannelBlock block)
    {
        int every = _sources[channel].Decimation;
        if (every == 0)
        {
            Acquisition.Add(new AcquisitionEvent(
                Format.Channels[channel].Name, AcquisitionKind.Gap, SampleNs(channel, first), SampleNs(channel, first + codes.Length), codes.Length));
            _deliveries[channel].Skip(codes, status, first);
            return;
        }

        _deliveries[channel].Decimation = every;
        _deliveries[channel].Deliver(codes, status, first, block, Acquisition);
    }

    private ChannelSource Slot(KeyValues values, ulong seed, WanderingPhase mains, ChannelName name) => name == ChannelName.Dark
        ? new DarkSource(values, seed, mains)
        : new LightSource(values, seed, _body, mains, name);

    // Devices whose clocks lag reach further into the body's time than the stream's own position; where all of them run ahead of the body the
    // stream's position leaves them behind, and the body's ring must not follow it.
    private double LatestBodySeconds(double deviceSeconds)
    {
        double latest = double.NegativeInfinity;
        foreach (Device device in _devices)
        {
            latest = Math.Max(latest, device.Clock.BodySeconds(deviceSeconds));
        }

        return Math.Max(latest, Math.Min(deviceSeconds, latest + LargestLagSeconds));
    }

    // Channels of a device share its radio.
    private void JoinDeliveries()
    {
        for (int i = 1; i < _deliveries.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                _deliveries[i].Join(_deliveries[j]);
            }
        }
    }

    // Axes share their movement, lights their artefact: made once for all.
    private void JoinSources()
    {
        for (int i = 0; i < _sources.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                _sources[i].Join(_sources[j]);
            }
        }
    }
}

/// <summary>Takes analog values as they stand at a converter.</summary>
/// <param name="channel">The channel.</param>
/// <param name="firstIndex">Index of the first sample.</param>
/// <param name="values">Physical values [unit of the channel].</param>
internal delegate void AnalogTap(ChannelName channel, long firstIndex, ReadOnlySpan<double> values);
