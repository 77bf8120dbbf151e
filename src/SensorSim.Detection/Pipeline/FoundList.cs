// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Pipeline;

/// <summary>A beat or a pulse, and the tick of the sample that showed it.</summary>
internal struct Found
{
    public long Tick;
    public bool IsBeat;
    public BeatEvent Beat;
    public PulseEvent Pulse;
}

/// <summary>What has been found within a slice of at most a tenth of a second, in order of tick; beats before pulses of the same tick.</summary>
internal struct FoundList
{
    // Beats lie at least 200 ms apart, pulses 270 ms: two of each at most, counting what a gap brings out.
    private const int Capacity = 8;

    private Items _items;

    public int Count { get; private set; }

    public readonly Found this[int index] => _items[index];

    public void AddBeat(in BeatEvent beat, long tick) => Insert(new Found { Tick = tick, IsBeat = true, Beat = beat });

    public void AddPulse(in PulseEvent pulse, long tick) => Insert(new Found { Tick = tick, Pulse = pulse });

    private void Insert(in Found found)
    {
        if (Count == Capacity)
        {
            return;
        }

        int at = Count++;
        while (at > 0 && (_items[at - 1].Tick > found.Tick || (_items[at - 1].Tick == found.Tick && found.IsBeat && !_items[at - 1].IsBeat)))
        {
            _items[at] = _items[at - 1];
            at--;
        }

        _items[at] = found;
    }

    [InlineArray(Capacity)]
    private struct Items
    {
        private Found _first;
    }
}
