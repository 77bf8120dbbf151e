// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Delivery;

/// <summary>What becomes of the packets of a device, sixteen at a time: found once for all its channels.</summary>
/// <remarks>
/// What is kept follows from the number of the sixteen alone, since nothing but the packets before decides how the radio enters them: whoever
/// asks gets the same answer as if he had found it himself. One thread at a time.
/// </remarks>
internal sealed class PacketRadio
{
    /// <summary>Packets that are found at once.</summary>
    public const int Together = SequentialDraws.Count;

    // Channels follow each other over a second: packets of 8 ms and longer are found once.
    private const int Kept = 8;

    private readonly double _share;
    private readonly double _worsens;
    private readonly double _stays;
    private readonly double _meanDelayMs;
    private readonly double _lateMs;
    private readonly double _patienceMs;
    private readonly double _mayBeLate;
    private readonly long _packetNs;
    private readonly long _wrapNs;
    private readonly Sixteen[] _kept = new Sixteen[Kept];
    private readonly double[] _delaysMs = new double[Kept * Together];
    private SequentialDraws _radio;
    private SequentialDraws _delay;

    /// <summary>Creates the radio of a device.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="keys">The device's keys.</param>
    public PacketRadio(KeyValues values, ulong seed, DataPathKeys keys)
    {
        bool isFirst = ReferenceEquals(keys, DataPathKeys.First);
        _radio = new SequentialDraws(isFirst ? new KeyedRandom(seed, "device.packet_loss") : new KeyedRandom(seed, "second_device.packet_loss"));
        _delay = new SequentialDraws(isFirst ? new KeyedRandom(seed, "device.packet_delay") : new KeyedRandom(seed, "second_device.packet_delay"));
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
        Forget();
    }

    private PacketRadio(PacketRadio other)
    {
        _share = other._share;
        _worsens = other._worsens;
        _stays = other._stays;
        _meanDelayMs = other._meanDelayMs;
        _lateMs = other._lateMs;
        _patienceMs = other._patienceMs;
        _mayBeLate = other._mayBeLate;
        _packetNs = other._packetNs;
        _wrapNs = other._wrapNs;
        _radio = other._radio;
        _delay = other._delay;
        Forget();
    }

    /// <summary>What becomes of sixteen packets.</summary>
    /// <param name="number">Their number: they begin with packet 16 times this.</param>
    /// <param name="isBadBefore">How the radio was at the packet before them.</param>
    public Sixteen Of(long number, bool isBadBefore)
    {
        ref Sixteen kept = ref _kept[Slot(number)];
        if (kept.Number != number)
        {
            kept = Find(number, isBadBefore);
        }

        return kept;
    }

    /// <summary>Delay of a packet that is late [ms].</summary>
    /// <param name="packet">Number of the packet.</param>
    public double LateMs(long packet) =>
        _kept[Slot(packet / Together)].Number == packet / Together ? _delaysMs[(int)(packet & (_delaysMs.Length - 1))] : DelayMs(packet);

    /// <summary>One that may be used by another thread.</summary>
    public PacketRadio Copy() => new(this);

    private void Forget() => Array.Fill(_kept, new Sixteen(-1, 0, 0, false));

    private static int Slot(long number) => (int)(number & (Kept - 1));

    private Sixteen Find(long number, bool isBad)
    {
        // Past those whose draws can do nothing to a good radio.
        uint mayMatter = _wrapNs != 0 ? uint.MaxValue
            : (_share > 0 ? _radio.Below(number, _worsens) : 0) | (_mayBeLate > 0 ? _delay.Below(number, _mayBeLate) : 0);
        uint lost = 0;
        uint late = 0;
        for (int place = 0; place < Together;)
        {
            long packet = (number * Together) + place;
            if (_share > 0)
            {
                isBad = _radio.Uniform(packet) < (packet == 0 ? _share : isBad ? _stays : _worsens);
            }

            double delayMs = DelayMs(packet);
            if (isBad || delayMs > _patienceMs || IsWrapping(packet))
            {
                lost |= 1u << place;
            }
            else if (delayMs > _lateMs)
            {
                late |= 1u << place;
                _delaysMs[(int)(packet & (_delaysMs.Length - 1))] = delayMs;
            }

            uint later = (isBad ? uint.MaxValue : mayMatter | (1u << Together)) >> (place + 1);
            place += 1 + (int)uint.TrailingZeroCount(later);
        }

        return new Sixteen(number, lost, late, isBad);
    }

    // Delay of a packet [ms]; 0 when it matters to nobody, which saves most of the logarithms.
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

    /// <summary>What becomes of sixteen packets; bit i belongs to the i-th of them.</summary>
    /// <param name="Number">Number of the sixteen.</param>
    /// <param name="Lost">Which are lost.</param>
    /// <param name="Late">Which are late, but not lost.</param>
    /// <param name="IsBadAfter">Whether the radio is bad at the last of them.</param>
    public readonly record struct Sixteen(long Number, uint Lost, uint Late, bool IsBadAfter);
}
