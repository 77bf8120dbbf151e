// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>Packets that never arrive: lost by the radio, later than the receiver's patience, or with a time stamp that wraps.</summary>
/// <remarks>
/// <para>The radio is good or bad; a packet is lost when it is bad (Gilbert, Bell System Technical Journal 39:1253, 1960). From bad to good it
/// goes with chance 1 / mean burst, from good to bad such that the wanted share is lost. One draw to a packet decides; more loss with the same
/// burst adds lost packets and gives none back.</para>
/// <para>Packets are numbered by device time, so every channel of a device loses the same ones. The state is walked packet by packet, past those
/// whose draws can do nothing to a good radio.</para>
/// </remarks>
internal sealed class PacketLoss : SampleStretches
{
    private readonly ChannelName _channel;
    private readonly int _rateHz;
    private readonly double _share;
    private readonly double _worsens;
    private readonly double _stays;
    private readonly double _meanDelayMs;
    private readonly double _lateMs;
    private readonly double _patienceMs;
    private readonly double _mayBeLate;
    private readonly long _packetNs;
    private readonly long _wrapNs;
    private SequentialDraws _radio;
    private SequentialDraws _delay;
    private long _packet;
    private long _first;
    private uint _mayMatter;
    private bool _isBad;

    private PacketLoss(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys)
    {
        bool isFirst = ReferenceEquals(keys, DataPathKeys.First);
        _radio = new SequentialDraws(isFirst ? new KeyedRandom(seed, "device.packet_loss") : new KeyedRandom(seed, "second_device.packet_loss"));
        _delay = new SequentialDraws(isFirst ? new KeyedRandom(seed, "device.packet_delay") : new KeyedRandom(seed, "second_device.packet_delay"));
        _channel = format.Name;
        _rateHz = format.RateHz;
        _share = values[keys.PacketLossPercent] * 0.01;
        double leaves = 1 / values[keys.LossBurstPackets];
        _stays = 1 - leaves;
        _worsens = leaves * _share / (1 - _share);
        _meanDelayMs = values[keys.PacketDelayMs];
        _lateMs = values[keys.LateMs];
        _patienceMs = values[keys.PatienceMs];
        _mayBeLate = _meanDelayMs == 0 ? 0 : 1.001 * PortableMath.Exp(-Math.Min(_lateMs, _patienceMs) / _meanDelayMs);
        _packetNs = (long)Math.Round(values[keys.PacketMs] * 1e6);
        _wrapNs = (long)Math.Round(values[keys.StampWrapS] * 1e9);
    }

    /// <summary>Where late packets are told.</summary>
    public EventRing<AcquisitionEvent>? Told { get; set; }

    /// <summary>The packet losses of a channel, or null when it has none and no late packets.</summary>
    public static PacketLoss? Of(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys)
    {
        bool isOff = values[keys.PacketLossPercent] == 0 && values[keys.PacketDelayMs] == 0 && values[keys.StampWrapS] == 0;
        return isOff ? null : new PacketLoss(values, seed, format, keys);
    }

    /// <inheritdoc/>
    protected override bool TryFind(long limit, out long begin, out long end)
    {
        while (_first < limit)
        {
            begin = _first;
            end = FirstSample(_packet + 1);
            bool isLost = IsLost(_packet, begin, end);
            _packet = Next(_packet);
            _first = FirstSample(_packet);

            // A packet that is shorter than the time between two samples may hold none.
            if (isLost && end > begin)
            {
                return true;
            }
        }

        ClearUntil = _first;
        begin = end = 0;
        return false;
    }

    private long FirstSample(long packet) => NominalTime.FirstSample(packet * _packetNs, _rateHz);

    // The packet that is decided after another one: the following one when the radio is bad or sixteen are over.
    private long Next(long packet)
    {
        int place = (int)(packet % SequentialDraws.Count);
        if (place == 0)
        {
            long block = packet / SequentialDraws.Count;
            _mayMatter = _wrapNs != 0 ? uint.MaxValue
                : (_share > 0 ? _radio.Below(block, _worsens) : 0) | (_mayBeLate > 0 ? _delay.Below(block, _mayBeLate) : 0);
        }

        uint later = (_isBad ? uint.MaxValue : _mayMatter | (1u << SequentialDraws.Count)) >> (place + 1);
        return packet + 1 + uint.TrailingZeroCount(later);
    }

    private bool IsLost(long packet, long begin, long end)
    {
        if (_share > 0)
        {
            _isBad = _radio.Uniform(packet) < (packet == 0 ? _share : _isBad ? _stays : _worsens);
        }

        double delayMs = DelayMs(packet);
        if (_isBad || delayMs > _patienceMs || IsWrapping(packet))
        {
            return true;
        }

        if (delayMs > _lateMs && end > begin)
        {
            Told?.Add(new AcquisitionEvent(_channel, AcquisitionKind.LatePacket, NominalTime.Ns(begin, _rateHz), NominalTime.Ns(end, _rateHz), delayMs));
        }

        return false;
    }

    // Delay of a packet; 0 when it matters to nobody, which saves most of the logarithms.
    private double DelayMs(long packet)
    {
        if (_meanDelayMs == 0)
        {
            return 0;
        }

        double draw = _delay.Uniform(packet);
        return draw < _mayBeLate ? -_meanDelayMs * PortableMath.Log(draw) : 0;
    }

    // Whether a whole number of turns, 1 or more, lies in the packet.
    private bool IsWrapping(long packet)
    {
        if (_wrapNs == 0)
        {
            return false;
        }

        long turnsBefore = packet == 0 ? 0 : ((packet * _packetNs) - 1) / _wrapNs;
        return (((packet + 1) * _packetNs) - 1) / _wrapNs != turnsBefore;
    }
}
