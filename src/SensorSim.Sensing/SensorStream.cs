// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
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
public sealed class SensorStream : ISampleStream
{
    // Longest stretch made at once [s]: keeps the working set in the first-level cache and the body's ring from running over.
    private const int ChunkSeconds = 1;

    private readonly BodyModel _body;
    private readonly ChannelSource[] _sources;
    private readonly double[] _scratch;

    /// <summary>Creates a stream.</summary>
    /// <param name="values">Values of the scenario; not changed afterwards.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="durationSeconds">Length [s], above 0; infinity for an endless stream.</param>
    public SensorStream(KeyValues values, ulong seed, double durationSeconds)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(durationSeconds);
        _body = new BodyModel(values, seed, OpticalSlots.HasGreen(values));
        WanderingPhase mains = MainsSupply.Create(values, seed);
        _sources =
        [
            new EcgSource(values, seed, _body, mains),
            .. OpticalSlots.Order(values).Select(name => Slot(values, seed, mains, name)),
            new AxisSource(values, seed, _body.Movement, ChannelName.AccelX),
            new AxisSource(values, seed, _body.Movement, ChannelName.AccelY),
            new AxisSource(values, seed, _body.Movement, ChannelName.AccelZ),
        ];
        JoinSources();
        Format = new StreamFormat([.. _sources.Select(s => s.Format)]);
        _scratch = new double[Format.Channels.Max(c => c.RateHz) * ChunkSeconds];
        EndTick = double.IsPositiveInfinity(durationSeconds) ? long.MaxValue : Format.Clock.TickAtOrAfter(durationSeconds);
    }

    private SensorStream(SensorStream other)
    {
        _body = other._body.Copy();
        _sources = Array.ConvertAll(other._sources, s => s.Copy(_body));
        JoinSources();
        Format = other.Format;
        _scratch = new double[other._scratch.Length];
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
    public void Read(SampleBlock block, long untilTick)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfLessThan(untilTick, PositionTick);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(untilTick, EndTick);
        block.Begin(PositionTick, untilTick);
        long chunk = Format.Clock.TicksPerSecond * ChunkSeconds;
        while (PositionTick < untilTick)
        {
            long end = Math.Min(untilTick, PositionTick + chunk);
            for (int c = 0; c < _sources.Length; c++)
            {
                long first = Format.FirstSampleAtOrAfter(c, PositionTick);
                int count = (int)(Format.FirstSampleAtOrAfter(c, end) - first);
                if (count > 0)
                {
                    block.Channels[c].Append(first, count, out Span<int> codes, out Span<ushort> status);
                    _sources[c].Fill(_scratch.AsSpan(0, count), codes, status, first);
                }
            }

            PositionTick = end;
            _body.PlanUntil(Format.Clock.Seconds(end) + BodyModel.LeadSeconds);
        }
    }

    /// <summary>An independent stream that goes on from the same place and gives the same samples and truth.</summary>
    public SensorStream Copy() => new(this);

    private ChannelSource Slot(KeyValues values, ulong seed, WanderingPhase mains, ChannelName name) => name == ChannelName.Dark
        ? new DarkSource(values, seed, mains)
        : new LightSource(values, seed, _body, mains, name);

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
