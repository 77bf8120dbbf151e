// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>What happens in the room: sun and shade, lamps that are switched, hands that pass; how much of each light they leave.</summary>
/// <remarks>
/// <para>One room for all slots of all devices: functions of body time, so each slot sees the same at its own instant. Slots of one device share
/// it: none of them asks for times further back than a stretch and two blocks.</para>
/// <para>Mostly nothing happens. Whether that is so is found out once for every 64 samples, counted from sample 0 of the first slot, with the
/// instants of the other slots that belong to them.</para>
/// </remarks>
internal sealed class AmbientChanges
{
    private const double LampRampSeconds = 0.02;
    private readonly SampleGrid _grid;
    private readonly AmbientSwitch? _sun;
    private readonly AmbientSwitch? _lamps;
    private readonly AmbientHands? _hands;
    private readonly AmbientStretch[] _stretches;

    /// <summary>Creates the changes.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="grid">Sampling instants of the first slot.</param>
    public AmbientChanges(KeyValues values, ulong seed, in SampleGrid grid)
    {
        _grid = grid;
        double stretch = SensorSim.Sensing.Stretch.MostSeconds(1 / grid.StepSeconds);
        double remembered = stretch + (3 * LiveLatch.Samples * grid.StepSeconds);
        if (HasShade(values))
        {
            _sun = new AmbientSwitch(
                new KeyedRandom(seed, "ambient.shade"), values[AmbientChangeKeys.ShadePerMin], values[AmbientChangeKeys.ShadeRampS], remembered);
        }

        if (HasSwitching(values))
        {
            _lamps = new AmbientSwitch(
                new KeyedRandom(seed, "ambient.lamp_switch"), values[AmbientChangeKeys.LampSwitchPerMin], LampRampSeconds, remembered);
        }

        if (values[AmbientChangeKeys.HandPerMin] > 0)
        {
            _hands = new AmbientHands(new KeyedRandom(seed, "ambient.hand"), values[AmbientChangeKeys.HandPerMin]);
        }

        // Those of a stretch of the stream, which may begin and end within one.
        _stretches = new AmbientStretch[BitOperations.RoundUpToPowerOf2((uint)(stretch / (LiveLatch.Samples * grid.StepSeconds)) + 2)];
    }

    private AmbientChanges(AmbientChanges other)
    {
        _grid = other._grid;
        _sun = other._sun?.Copy();
        _lamps = other._lamps?.Copy();
        _hands = other._hands?.Copy();
        _stretches = new AmbientStretch[other._stretches.Length];
    }

    /// <summary>Whether anything ever happens to the light by itself.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool Any(KeyValues values) => HasShade(values) || HasSwitching(values) || values[AmbientChangeKeys.HandPerMin] > 0;

    /// <summary>What happens within 64 samples of all slots.</summary>
    /// <param name="latch">Number of the 64 samples.</param>
    public AmbientStretch Stretch(long latch)
    {
        ref AmbientStretch stretch = ref _stretches[latch & (_stretches.Length - 1)];
        if (!stretch.IsKnown || stretch.Latch != latch)
        {
            stretch = Look(latch);
        }

        return stretch;
    }

    /// <summary>How much of the sun there is: 1 in the sun, 0 in the shade.</summary>
    /// <param name="stretch">The 64 samples in which the time lies.</param>
    /// <param name="seconds">Body time [s].</param>
    public double SunAt(in AmbientStretch stretch, double seconds) => stretch.IsSunSteady ? stretch.Sun : _sun!.At(seconds);

    /// <summary>Adds what the sun comes and goes since the begin of 64 samples.</summary>
    /// <param name="light">Element i is that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants of a slot.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="stretch">The 64 samples in which all of them lie.</param>
    /// <param name="height">From shade to sun.</param>
    public void AddSun(Span<double> light, in SampleGrid grid, long firstIndex, in AmbientStretch stretch, double height)
    {
        if (!stretch.IsSunSteady)
        {
            _sun!.AddEdges(light, grid, firstIndex, _grid.Seconds(stretch.Latch * LiveLatch.Samples), height);
        }
    }

    /// <summary>Finds how much of lamps and sun there is, and what hands leave of all light.</summary>
    /// <param name="grid">Sampling instants of a slot.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="handDepth">Share that a hand takes at the middle of its shadow, 0 to 1.</param>
    /// <param name="lamps">Receives shares of mains-fed light.</param>
    /// <param name="sun">Receives 1 in the sun and 0 in the shade; as many.</param>
    /// <param name="all">Receives what hands leave; as many.</param>
    public void Find(in SampleGrid grid, long firstIndex, double handDepth, Span<double> lamps, Span<double> sun, Span<double> all)
    {
        lamps.Fill(1);
        sun.Fill(1);
        all.Fill(1);
        _lamps?.Fill(lamps, grid, firstIndex);
        _sun?.Fill(sun, grid, firstIndex);
        _hands?.Shade(all, grid, firstIndex, handDepth);
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientChanges Copy() => new(this);

    // Instants of other slots lie less than a sample after those of the first.
    private AmbientStretch Look(long latch)
    {
        double begin = _grid.Seconds(latch * LiveLatch.Samples);
        double end = _grid.Seconds((latch + 1) * LiveLatch.Samples);
        double lamps = 1;
        double sun = 1;
        bool isSteady = !(_hands?.Touch(begin, end) ?? false);
        isSteady &= _lamps?.IsSteady(begin, end, out lamps) ?? true;
        bool isSunSteady = _sun?.IsSteady(begin, end, out sun) ?? true;
        return new AmbientStretch(true, latch, isSteady, lamps, isSunSteady, sun);
    }

    private static bool HasShade(KeyValues values) =>
        values[AmbientChangeKeys.ShadePerMin] > 0 && values.Course(AmbientChangeKeys.DaylightLux).Highest > 0;

    private static bool HasSwitching(KeyValues values) => values[AmbientChangeKeys.LampSwitchPerMin] > 0
        && (values.Course(AmbientKeys.LevelNa).Highest > 0 || values.Course(AmbientKeys.LevelLux).Highest > 0);
}

/// <summary>What happens in the room within 64 samples.</summary>
/// <param name="IsKnown">Whether this has been found out.</param>
/// <param name="Latch">Number of the 64 samples.</param>
/// <param name="IsSteady">Whether neither lamps are switched nor hands pass.</param>
/// <param name="Lamps">Share of mains-fed light there is then, 0 or 1.</param>
/// <param name="IsSunSteady">Whether sun or shade stay.</param>
/// <param name="Sun">1 in the sun and 0 in the shade; where that changes, before it does.</param>
internal readonly record struct AmbientStretch(bool IsKnown, long Latch, bool IsSteady, double Lamps, bool IsSunSteady, double Sun);
