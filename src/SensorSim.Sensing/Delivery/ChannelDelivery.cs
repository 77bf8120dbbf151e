// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Acquisition;
using SensorSim.Sensing.Candidates;
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>What happens to the codes of one channel between the converter and whoever reads the stream.</summary>
/// <remarks>Samples come in order, each once; what is dropped becomes a jump of the index.</remarks>
internal sealed class ChannelDelivery
{
    private readonly SampleRepeats? _repeats;
    private readonly PacketLoss? _packets;
    private readonly BufferLoss? _buffer;
    private readonly SampleStretches[] _losses;
    private readonly GapTeller _gaps;
    private readonly ushort _givenFlags;

    // Flags that the next sample which arrives gets on top.
    private ushort _nextFlags;

    /// <summary>Creates the delivery of a channel.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="format">The channel.</param>
    public ChannelDelivery(KeyValues values, ulong seed, ChannelFormat format)
    {
        DataPathKeys keys = Device.Of(values, format.Name).IsSecond ? DataPathKeys.Second : DataPathKeys.First;
        double repeated = values[keys.RepeatedSamplesPerMillion];
        double lost = values[keys.LostSamplesPerMillion];
        var repeats = new KeyedRandom(seed, "data_path.repeated_" + "erigdxyz"[(int)format.Name]);
        var misses = new KeyedRandom(seed, "data_path.lost_" + "erigdxyz"[(int)format.Name]);
        _repeats = repeated > 0 ? new SampleRepeats(new RareSamples(repeats, repeated)) : null;
        _packets = PacketLoss.Of(values, seed, format, keys);
        _buffer = BufferLoss.Of(values, seed, format, keys);
        _losses = Present(_buffer, lost > 0 ? new SampleLoss(new RareSamples(misses, lost)) : null, _packets);
        _gaps = new GapTeller(format.Name, format.RateHz);
        _givenFlags = GivenFlags.Of(values, format.Name);
    }

    private ChannelDelivery(ChannelDelivery other)
    {
        _repeats = other._repeats?.Copy();
        _losses = Array.ConvertAll(other._losses, l => l.Copy());
        _packets = _losses.OfType<PacketLoss>().FirstOrDefault();
        _buffer = _losses.OfType<BufferLoss>().FirstOrDefault();
        _gaps = other._gaps.Copy();
        _givenFlags = other._givenFlags;
        _nextFlags = other._nextFlags;
        Decimation = other.Decimation;
    }

    /// <summary>Every how manieth sample of the base rate is given, by index; at least 1.</summary>
    public int Decimation { get; set; } = 1;

    /// <summary>Shares with the delivery of an earlier channel of the same stream what both would find alike.</summary>
    public void Join(ChannelDelivery earlier)
    {
        if (earlier._packets is not null)
        {
            _packets?.Join(earlier._packets);
        }
    }

    /// <summary>Passes samples on.</summary>
    /// <param name="codes">Codes; may be changed.</param>
    /// <param name="status">Status words; may be changed.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    /// <param name="block">Receives what arrives.</param>
    /// <param name="events">Receives what is to be told.</param>
    public void Deliver(Span<int> codes, Span<ushort> status, long firstIndex, ChannelBlock block, EventRing<AcquisitionEvent> events)
    {
        _repeats?.Apply(codes, status, firstIndex);
        if (_losses.Length == 0)
        {
            Append(codes, status, firstIndex, block);
            return;
        }

        if (_packets is not null)
        {
            _packets.Told = events;
        }

        long end = firstIndex + codes.Length;
        for (long at = firstIndex; at < end;)
        {
            long lost = NextLost(at, end);
            if (lost > at)
            {
                int from = (int)(at - firstIndex);
                int count = (int)(lost - at);
                Append(codes.Slice(from, count), status.Slice(from, count), at, block);
            }

            for (at = lost; at < end && NextLost(at, end) == at;)
            {
                at = LostUntil(at, end);
            }

            if (at > lost)
            {
                _gaps.Lose(lost, at, events);
            }
        }

        // Packets under what something else lost are decided too, so that no cut moves what is told of them.
        _packets?.Next(end, end);
    }

    /// <summary>Samples of a channel that is off: nothing arrives and nothing is told, but what comes later goes on as if it had never been off.</summary>
    /// <param name="codes">Codes; may be changed.</param>
    /// <param name="status">Status words; may be changed.</param>
    /// <param name="firstIndex">Index of the first sample; the one after the last call's.</param>
    public void Skip(Span<int> codes, Span<ushort> status, long firstIndex)
    {
        _repeats?.Apply(codes, status, firstIndex);
        if (_packets is not null)
        {
            _packets.Told = null;
        }

        long end = firstIndex + codes.Length;
        foreach (SampleStretches losses in _losses)
        {
            losses.Next(end, end);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public ChannelDelivery Copy() => new(this);

    private static SampleStretches[] Present(params SampleStretches?[] losses) => [.. losses.OfType<SampleStretches>()];

    // The last step: consecutive samples that arrive. A channel that is set to give fewer of them thins them here, by index.
    private void Append(ReadOnlySpan<int> codes, Span<ushort> status, long firstIndex, ChannelBlock block)
    {
        if (Decimation > 1)
        {
            AppendThinned(codes, status, firstIndex, block);
            return;
        }

        status[0] |= _nextFlags;
        _nextFlags = 0;
        block.Append(firstIndex, codes, status);
    }

    private void AppendThinned(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, long firstIndex, ChannelBlock block)
    {
        for (long i = ((firstIndex + Decimation - 1) / Decimation * Decimation) - firstIndex; i < codes.Length; i += Decimation)
        {
            block.Append(firstIndex + i, 1, out Span<int> toCodes, out Span<ushort> toStatus);
            toCodes[0] = codes[(int)i];
            toStatus[0] = (ushort)(status[(int)i] | _nextFlags);
            _nextFlags = 0;
        }
    }

    private long NextLost(long index, long limit)
    {
        foreach (SampleStretches loss in _losses)
        {
            limit = loss.Next(index, limit);
        }

        return limit;
    }

    // The end of what is lost from a sample on, as far as is known there. Where the buffer had a part in it, the next sample says so.
    private long LostUntil(long index, long limit)
    {
        long until = index;
        foreach (SampleStretches loss in _losses)
        {
            until = loss.Next(index, limit) == index ? Math.Max(until, loss.End) : until;
        }

        until = Math.Min(until, limit);
        if (_buffer is not null && _buffer.Next(index, until) < until)
        {
            _nextFlags |= (ushort)((ushort)SampleStatus.BufferOverflow & _givenFlags);
        }

        return until;
    }
}
