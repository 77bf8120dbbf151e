// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Room light as one slot sees it: mains-fed lamps with their flicker, daylight, a pulse-width lamp, and what happens to them.</summary>
/// <remarks>
/// What the slots of a device see alike, the phase of the flicker and what happens, is made once for all of them (<see cref="Join"/>). While
/// no lamp is switched and no hand passes the light is one sum of sines and a constant, and sun and shade add to it; whether that is so is
/// decided for 64 samples at absolute places, so that no cut moves a bit.
/// </remarks>
internal sealed class AmbientLight
{
    private static readonly AmbientStretch s_quiet = new(true, 0, true, 1, true, 1);

    private readonly SampleGrid _grid;
    private readonly AmbientCourses _courses;
    private readonly double _mainsHz;
    private readonly PulseWidthLamp _lamp;
    private readonly double[] _work;
    private RotationGroup _flicker;
    private AmbientChanges? _changes;
    private AmbientLevels _levels;
    private bool _hasLatched;
    private double _windowSeconds;
    private Vector256<double> _averaged;
    private Vector256<double> _flickerNa;

    /// <summary>Creates the light.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="mains">Phase of the mains.</param>
    /// <param name="grid">Sampling instants of the slot.</param>
    public AmbientLight(KeyValues values, ulong seed, WanderingPhase mains, in SampleGrid grid)
    {
        _grid = grid;
        _courses = new AmbientCourses(values);
        _mainsHz = mains.FrequencyHz;
        _lamp = new PulseWidthLamp(values[AmbientKeys.PulseWidthHz], new KeyedRandom(seed, "ambient.pulse_width_phase").Uniform(0));
        _flicker = new RotationGroup(mains, [2, 4, 6], grid, Stretch.MostSamples(1 / grid.StepSeconds));
        _changes = AmbientChanges.Any(values) ? new AmbientChanges(values, seed, grid) : null;
        _work = _changes is null ? [] : new double[5 * LiveLatch.Samples];
        SetIntegration(values[OpticsKeys.IntegrationUs] * 1e-6);
    }

    private AmbientLight(AmbientLight other)
    {
        _grid = other._grid;
        _courses = other._courses;
        _mainsHz = other._mainsHz;
        _lamp = other._lamp;
        _flicker = other._flicker.Copy();
        _changes = other._changes?.Copy();
        _work = new double[other._work.Length];
        _levels = other._levels;
        _hasLatched = other._hasLatched;
        _windowSeconds = other._windowSeconds;
        _averaged = other._averaged;
        _flickerNa = other._flickerNa;
        LatchedNa = other.LatchedNa;
    }

    /// <summary>Mean photocurrent at the latch [nA], flicker and the lamp's pulses averaged out: what shot noise and saturation go by.</summary>
    public double LatchedNa { get; private set; }

    /// <summary>Whether values make light that changes by itself, so that its channel must latch again and again for <see cref="LatchedNa"/>.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool ChangesByItself(KeyValues values) => AmbientChanges.Any(values);

    /// <summary>Shares with an earlier slot of the same device what both would make alike.</summary>
    /// <param name="earlier">Of the same values.</param>
    public void Join(AmbientLight earlier)
    {
        _flicker = earlier._flicker;
        _changes = earlier._changes;
    }

    /// <summary>Sets the integration time of the slot for the samples that are made next.</summary>
    /// <param name="seconds">Integration time, centred on the sampling instant [s], above 0.</param>
    public void SetIntegration(double seconds)
    {
        _windowSeconds = seconds;

        // Integration over the slot averages the flicker: a factor sin(x)/x with x = π × frequency × window.
        double radians = Math.PI * 2 * _mainsHz * seconds;
        _averaged = Vector256.Create(
            PortableMath.Sin(radians) / radians, PortableMath.Sin(2 * radians) / (2 * radians), PortableMath.Sin(3 * radians) / (3 * radians), 0);
        _flickerNa = _levels.FlickerNa * _averaged;
    }

    /// <summary>Takes the values that the live knobs have at the instant of the sample that is made next.</summary>
    /// <param name="seconds">Body time of sample 64 × <paramref name="latch"/> of the slot [s].</param>
    /// <param name="latch">Number of the 64 samples that begin there.</param>
    public void Latch(double seconds, long latch)
    {
        if (!_hasLatched || !_courses.AreConstant)
        {
            _levels = _courses.At(seconds);
            _flickerNa = _levels.FlickerNa * _averaged;
            _hasLatched = true;
        }

        AmbientStretch stretch = _changes?.Stretch(latch) ?? s_quiet;
        double lamps = stretch.Lamps;
        double sun = stretch.Sun;
        double all = 1;
        if (stretch.IsSteady)
        {
            sun = _changes?.SunAt(stretch, seconds) ?? 1;
        }
        else
        {
            _changes!.Find(new SampleGrid(seconds, 1), 0, _levels.HandDepth, new Span<double>(ref lamps), new Span<double>(ref sun), new Span<double>(ref all));
        }

        double mains = _levels.MainsNa * lamps;
        double daylight = _levels.DaylightNa * InSun(sun);
        LatchedNa = (mains + daylight + (_levels.LampNa * _levels.LampDuty)) * all;
    }

    /// <summary>Adds the photocurrent [nA] to samples at which nothing but sun and shade change.</summary>
    /// <param name="buffer">The samples; where anything ever happens, within 64 counted from sample 0.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="share">How much of the light is added.</param>
    /// <returns>Whether that is so; if not, nothing is added.</returns>
    public bool TryAdd(Span<double> buffer, long firstIndex, double share)
    {
        AmbientStretch stretch = _changes?.Stretch(firstIndex / LiveLatch.Samples) ?? s_quiet;
        if (!stretch.IsSteady)
        {
            return false;
        }

        double steady = (_levels.MainsNa * stretch.Lamps) + (_levels.DaylightNa * InSun(stretch.Sun));
        AddFlicker(buffer, firstIndex, _flickerNa * (stretch.Lamps * share), steady * share);
        _lamp.Add(buffer, _grid, firstIndex, _levels.LampNa * share, _levels.LampDuty, _windowSeconds);
        _changes?.AddSun(buffer, _grid, firstIndex, stretch, _levels.DaylightNa * _levels.ShadeDepth * share);
        return true;
    }

    /// <summary>Fills the photocurrent [nA] at samples, whatever happens there.</summary>
    /// <param name="buffer">Up to 64 samples; where anything ever happens, within 64 counted from sample 0.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Fill(Span<double> buffer, long firstIndex)
    {
        buffer.Clear();
        if (TryAdd(buffer, firstIndex, 1))
        {
            return;
        }

        Span<double> lamps = Work(0, buffer.Length);
        Span<double> sun = Work(1, buffer.Length);
        Span<double> all = Work(2, buffer.Length);
        Span<double> mains = Work(3, buffer.Length);
        Span<double> pulses = Work(4, buffer.Length);
        mains.Clear();
        pulses.Clear();
        _changes!.Find(_grid, firstIndex, _levels.HandDepth, lamps, sun, all);
        AddFlicker(mains, firstIndex, _flickerNa, _levels.MainsNa);
        _lamp.Add(pulses, _grid, firstIndex, _levels.LampNa, _levels.LampDuty, _windowSeconds);
        Mix(buffer, mains, lamps, sun, pulses, all);
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientLight Copy() => new(this);

    private Span<double> Work(int which, int count) => _work.AsSpan(which * LiveLatch.Samples, count);

    // What is left of daylight, 1 in the sun.
    private double InSun(double sun) => 1 - (_levels.ShadeDepth * (1 - sun));

    // Four at a time and the rest one by one: the same bits.
    private void Mix(
        Span<double> to,
        ReadOnlySpan<double> mains,
        ReadOnlySpan<double> lamps,
        ReadOnlySpan<double> sun,
        ReadOnlySpan<double> pulses,
        ReadOnlySpan<double> all)
    {
        double daylightNa = _levels.DaylightNa;
        double depth = _levels.ShadeDepth;
        Vector256<double> one = Vector256<double>.One;
        int i = 0;
        for (; i + 4 <= to.Length; i += 4)
        {
            Vector256<double> inSun = one - ((one - Vector256.Create(sun[i..])) * depth);
            Vector256<double> sum = (Vector256.Create(mains[i..]) * Vector256.Create(lamps[i..])) + (inSun * daylightNa) + Vector256.Create(pulses[i..]);
            (sum * Vector256.Create(all[i..])).CopyTo(to[i..]);
        }

        for (; i < to.Length; i++)
        {
            to[i] = ((mains[i] * lamps[i]) + (daylightNa * InSun(sun[i])) + pulses[i]) * all[i];
        }
    }

    private void AddFlicker(Span<double> buffer, long firstIndex, Vector256<double> flickerNa, double level)
    {
        if (flickerNa != Vector256<double>.Zero)
        {
            _flicker.Add(buffer, _grid, firstIndex, flickerNa, Vector256<double>.Zero, level);
        }
        else if (level != 0)
        {
            SpanLanes.Add(buffer, level);
        }
    }
}
