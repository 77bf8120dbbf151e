// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Pipeline;

/// <summary>What a path has found.</summary>
internal enum FoundKind : byte
{
    Beat,
    Step,
    Pulse,
    Spectrum,
    Cadence,
}

/// <summary>Something found, and the tick of the sample that showed it.</summary>
internal struct Found
{
    public long Tick;
    public FoundKind Kind;
    public BeatEvent Beat;
    public PulseEvent Pulse;

    /// <summary>A rate [1/1000 per minute] and its trust, from the spectrum or of the steps.</summary>
    public int RateMilli;
    public byte Quality;
    public bool IsTrusted;

    /// <summary>Signal and noise level of the detector when it found the beat or pulse.</summary>
    public int SignalLevel;
    public int NoiseLevel;
}

/// <summary>What has been found within a slice of at most a tenth of a second, in order of tick, then of kind.</summary>
internal struct FoundList
{
    // Beats lie at least 200 ms apart, pulses 270 ms, settings a tenth of a second, windows a second: this is never full.
    private const int Capacity = 12;

    private Items _items;

    public int Count { get; private set; }

    [System.Diagnostics.CodeAnalysis.UnscopedRef]
    public readonly ref readonly Found this[int index] => ref _items[index];

    public void Add(in Found found)
    {
        if (Count == Capacity)
        {
            return;
        }

        int at = Count++;
        while (at > 0 && (_items[at - 1].Tick > found.Tick || (_items[at - 1].Tick == found.Tick && _items[at - 1].Kind > found.Kind)))
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
