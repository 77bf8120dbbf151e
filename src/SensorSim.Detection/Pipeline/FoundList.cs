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

    /// <summary>Signal and noise level of the detector when it found the beat or pulse.</summary>
    public int SignalLevel;
    public int NoiseLevel;

    /// <summary>A rate [1/1000 per minute] and its trust, from the spectrum or of the steps; the latter are trusted while there is movement.</summary>
    public int RateMilli;
    public byte Quality;
    public bool IsTrusted;

    /// <summary>Whether there is a new value of oxygen saturation with the pulse.</summary>
    public bool IsOxygen;
    public FoundKind Kind;

    /// <summary>Where a beat or pulse stands in full.</summary>
    public byte Slot;
}

/// <summary>What has been found within a slice of at most a tenth of a second, in order of tick, then of kind.</summary>
internal struct FoundList
{
    // Beats lie at least 200 ms apart, pulses 270 ms (tuned, 100 and 150), rates of the spectrum and of steps come two seconds apart, and steps of the level
    // with nothing between them count once: none of these is ever full.
    private const int Capacity = 16;
    private const int EventCapacity = 4;

    private Items _items;
    private BeatEvents _beats;
    private PulseEvents _pulses;
    private byte _beatCount;
    private byte _pulseCount;

    public int Count { get; private set; }

    [System.Diagnostics.CodeAnalysis.UnscopedRef]
    public readonly ref readonly Found this[int index] => ref _items[index];

    [System.Diagnostics.CodeAnalysis.UnscopedRef]
    public readonly ref readonly BeatEvent Beat(in Found found) => ref _beats[found.Slot];

    [System.Diagnostics.CodeAnalysis.UnscopedRef]
    public readonly ref readonly PulseEvent Pulse(in Found found) => ref _pulses[found.Slot];

    public void AddBeat(in BeatEvent beat, int signalLevel, int noiseLevel, long tick)
    {
        if (_beatCount < EventCapacity)
        {
            _beats[_beatCount] = beat;
            Add(new Found { Tick = tick, Kind = FoundKind.Beat, SignalLevel = signalLevel, NoiseLevel = noiseLevel, Slot = _beatCount++ });
        }
    }

    public void AddPulse(in PulseEvent pulse, int signalLevel, int noiseLevel, bool isOxygen, long tick)
    {
        if (_pulseCount < EventCapacity)
        {
            _pulses[_pulseCount] = pulse;
            Add(new Found
            {
                Tick = tick,
                Kind = FoundKind.Pulse,
                SignalLevel = signalLevel,
                NoiseLevel = noiseLevel,
                IsOxygen = isOxygen,
                Slot = _pulseCount++,
            });
        }
    }

    public void Add(in Found found)
    {
        int at = Count;
        while (at > 0 && IsBefore(found, _items[at - 1]))
        {
            at--;
        }

        // The second of two steps in a row changes nothing that the first has not: a sensor that steps with every sample pushes nothing out.
        bool isRepeated = at > 0 && found.Kind == FoundKind.Step && _items[at - 1].Kind == FoundKind.Step;
        if (isRepeated || Count == Capacity)
        {
            return;
        }

        for (int i = Count; i > at; i--)
        {
            _items[i] = _items[i - 1];
        }

        _items[at] = found;
        Count++;
    }

    private static bool IsBefore(in Found one, in Found other) =>
        one.Tick < other.Tick || (one.Tick == other.Tick && one.Kind < other.Kind);

    [InlineArray(Capacity)]
    private struct Items
    {
        private Found _first;
    }

    [InlineArray(EventCapacity)]
    private struct BeatEvents
    {
        private BeatEvent _first;
    }

    [InlineArray(EventCapacity)]
    private struct PulseEvents
    {
        private PulseEvent _first;
    }
}
