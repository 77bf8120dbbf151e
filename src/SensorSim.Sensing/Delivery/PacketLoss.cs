// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>Packets that never arrive: lost by the radio, later than the receiver's patience, or with a time stamp that wraps.</summary>
/// <remarks>
/// <para>The radio is good or bad; a packet is lost when it is bad (Gilbert, Bell System Technical Journal 39:1253, 1960). From bad to good it
/// goes with chance 1 / mean burst, from good to bad such that the wanted share is lost. One draw to a packet decides; more loss with the same
/// burst adds lost packets and gives none back.</para>
/// <para>Packets are numbered by device time, so every channel of a device loses the same ones: what the radio does is found once for all of them
/// (<see cref="PacketRadio"/>), and a channel walks over the packets that are lost or late.</para>
/// </remarks>
internal sealed class PacketLoss : SampleStretches
{
    private readonly DataPathKeys _keys;
    private readonly ChannelName _channel;
    private readonly int _rateHz;
    private readonly long _packetNs;
    private PacketRadio _radio;
    private long _number = -1;
    private uint _lost;
    private uint _late;
    private bool _isBad;

    private PacketLoss(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys)
    {
        _keys = keys;
        _channel = format.Name;
        _rateHz = format.RateHz;
        _packetNs = (long)Math.Round(values[keys.PacketMs] * 1e6);
        _radio = new PacketRadio(values, seed, keys);
    }

    /// <summary>Where late packets are told.</summary>
    public EventRing<AcquisitionEvent>? Told { get; set; }

    /// <summary>The packet losses of a channel, or null when it has none and no late packets.</summary>
    public static PacketLoss? Of(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys)
    {
        bool isOff = values[keys.PacketLossPercent] == 0 && values[keys.PacketDelayMs] == 0 && values[keys.StampWrapS] == 0;
        return isOff ? null : new PacketLoss(values, seed, format, keys);
    }

    /// <summary>Shares the radio with another channel of the same stream if it is of the same device.</summary>
    public void Join(PacketLoss other)
    {
        if (ReferenceEquals(other._keys, _keys))
        {
            _radio = other._radio;
        }
    }

    /// <inheritdoc/>
    public override SampleStretches Copy()
    {
        var copy = (PacketLoss)base.Copy();
        copy._radio = _radio.Copy();
        return copy;
    }

    /// <inheritdoc/>
    protected override bool TryFind(long limit, out long begin, out long end)
    {
        for (; ;)
        {
            // Of the sixteen packets the next that is lost or late; when there is none, the next sixteen.
            uint left = _lost | _late;
            long packet = (_number * PacketRadio.Together) + (left == 0 ? PacketRadio.Together : uint.TrailingZeroCount(left));
            begin = FirstSample(packet);
            if (begin >= limit)
            {
                ClearUntil = begin;
                end = 0;
                return false;
            }

            if (left == 0)
            {
                PacketRadio.Sixteen next = _radio.Of(++_number, _isBad);
                _isBad = next.IsBadAfter;
                _lost = next.Lost;
                _late = next.Late;
                continue;
            }

            // A packet that is shorter than the time between two samples may hold none.
            uint others = left & (left - 1);
            bool isLost = (_lost & ~others) != 0;
            _lost &= others;
            _late &= others;
            end = FirstSample(packet + 1);
            if (end > begin)
            {
                if (isLost)
                {
                    return true;
                }

                Told?.Add(new AcquisitionEvent(
                    _channel, AcquisitionKind.LatePacket, NominalTime.Ns(begin, _rateHz), NominalTime.Ns(end, _rateHz), _radio.LateMs(packet)));
            }
        }
    }

    private long FirstSample(long packet) => NominalTime.FirstSample(packet * _packetNs, _rateHz);
}
