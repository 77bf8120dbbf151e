// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Delivery;

/// <summary>Samples that the sensor's buffer has no room for while the device's processor is busy.</summary>
/// <remarks>
/// The buffer is empty before; while nobody empties it, it takes its fill. Of a longer stall the samples after the first N are lost, or,
/// when the newest are kept, those before the last N. Stalls that overlap are one. All channels of a device share the stalls.
/// </remarks>
internal sealed class BufferLoss : SampleStretches
{
    // Stalls that follow without a pause end somewhere: the next one begins there.
    private const int MostJoined = 4096;

    private readonly double _stallSeconds;
    private readonly long _capacity;
    private readonly bool _keepsNewest;
    private readonly int _rateHz;
    private RareTimes _stalls;
    private long _second;

    private BufferLoss(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys)
    {
        KeyedRandom random = ReferenceEquals(keys, DataPathKeys.First) ? new KeyedRandom(seed, "device.stalls") : new KeyedRandom(seed, "second_device.stalls");
        _stalls = new RareTimes(random, values[keys.StallsPerMin] / 60);
        _stallSeconds = values[keys.StallMs] * 1e-3;
        _capacity = (long)values[keys.FifoSamples];
        _keepsNewest = values[keys.FifoKeeps] == "newest";
        _rateHz = format.RateHz;
    }

    /// <summary>The losses of a channel's buffer, or null when it has none.</summary>
    public static BufferLoss? Of(KeyValues values, ulong seed, ChannelFormat format, DataPathKeys keys) =>
        values[keys.StallsPerMin] == 0 ? null : new BufferLoss(values, seed, format, keys);

    /// <inheritdoc/>
    protected override bool TryFind(long limit, out long begin, out long end)
    {
        // What lies beyond the limit is found at the same look.
        while (_second * _rateHz < limit)
        {
            long second = _stalls.NextKnown(_second, out bool isFound);
            _second = isFound ? second + 1 : second;
            if (isFound)
            {
                double from = _stalls.Seconds(second);
                double until = Joined(from + _stallSeconds);
                begin = (long)Math.Ceiling(from * _rateHz);
                end = (long)Math.Ceiling(until * _rateHz);
                begin += _keepsNewest ? 0 : _capacity;
                end -= _keepsNewest ? _capacity : 0;
                if (end > begin)
                {
                    return true;
                }
            }
        }

        ClearUntil = _second * _rateHz;
        begin = end = 0;
        return false;
    }

    // End of a stall with those that begin before it is over.
    private double Joined(double until)
    {
        for (int k = 0; k < MostJoined && _second < until; k++, _second++)
        {
            if (_stalls.Next(_second, _second + 1) == _second)
            {
                double from = _stalls.Seconds(_second);
                if (from >= until)
                {
                    break;
                }

                until = from + _stallSeconds;
            }
        }

        return until;
    }
}
