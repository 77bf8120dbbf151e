// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>What happens in the room: sun and shade, lamps that are switched, hands that pass; how much of each light they leave.</summary>
/// <remarks>One room for all slots of all devices: functions of body time, so each slot sees the same at its own instant.</remarks>
internal sealed class AmbientChanges
{
    /// <summary>Most samples that are filled at once.</summary>
    public const int Most = 64;

    private const double LampRampSeconds = 0.02;
    private readonly AmbientSwitch? _sun;
    private readonly AmbientSwitch? _lamps;
    private readonly AmbientHands? _hands;
    private readonly Course _shadeDepth;
    private readonly Course _handDepth;
    private readonly double[] _all = new double[Most];
    private readonly double[] _mains = new double[Most];
    private readonly double[] _daylight = new double[Most];
    private double _shade;
    private double _hand;

    /// <summary>Creates the changes.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public AmbientChanges(KeyValues values, ulong seed)
    {
        _shadeDepth = values.Course(AmbientChangeKeys.ShadeDepthPercent);
        _handDepth = values.Course(AmbientChangeKeys.HandDepthPercent);
        if (HasShade(values))
        {
            _sun = new AmbientSwitch(
                new KeyedRandom(seed, "ambient.shade"), values[AmbientChangeKeys.ShadePerMin], values[AmbientChangeKeys.ShadeRampS]);
        }

        if (HasSwitching(values))
        {
            _lamps = new AmbientSwitch(new KeyedRandom(seed, "ambient.lamp_switch"), values[AmbientChangeKeys.LampSwitchPerMin], LampRampSeconds);
        }

        if (values[AmbientChangeKeys.HandPerMin] > 0)
        {
            _hands = new AmbientHands(new KeyedRandom(seed, "ambient.hand"), values[AmbientChangeKeys.HandPerMin]);
        }
    }

    private AmbientChanges(AmbientChanges other)
    {
        _sun = other._sun?.Copy();
        _lamps = other._lamps?.Copy();
        _hands = other._hands;
        _shadeDepth = other._shadeDepth;
        _handDepth = other._handDepth;
        _shade = other._shade;
        _hand = other._hand;
    }

    /// <summary>Whether anything ever happens to the light by itself.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool Any(KeyValues values) => HasShade(values) || HasSwitching(values) || values[AmbientChangeKeys.HandPerMin] > 0;

    /// <summary>Takes the depths that hold from a time on.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        _shade = _shadeDepth.Value(seconds) * 0.01;
        _hand = _handDepth.Value(seconds) * 0.01;
    }

    /// <summary>Fills what is left of each light at up to <see cref="Most"/> samples; the spans hold until the next call.</summary>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample; forward only, the same one again is allowed.</param>
    /// <param name="count">Samples.</param>
    /// <param name="mains">Gains of mains-fed light.</param>
    /// <param name="daylight">Gains of daylight.</param>
    /// <param name="other">Gains of all other light.</param>
    public void Fill(
        in SampleGrid grid, long firstIndex, int count, out ReadOnlySpan<double> mains, out ReadOnlySpan<double> daylight, out ReadOnlySpan<double> other)
    {
        Span<double> all = _all.AsSpan(0, count);
        all.Fill(1);
        _hands?.Shade(all, grid, firstIndex, _hand);
        other = all;
        mains = all;
        daylight = all;
        if (_lamps is not null)
        {
            Span<double> lamps = _mains.AsSpan(0, count);
            _lamps.Fill(lamps, grid, firstIndex);
            for (int i = 0; i < count; i++)
            {
                lamps[i] *= all[i];
            }

            mains = lamps;
        }

        if (_sun is not null)
        {
            Span<double> sun = _daylight.AsSpan(0, count);
            _sun.Fill(sun, grid, firstIndex);
            for (int i = 0; i < count; i++)
            {
                sun[i] = (1 - (_shade * (1 - sun[i]))) * all[i];
            }

            daylight = sun;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientChanges Copy() => new(this);

    private static bool HasShade(KeyValues values) =>
        values[AmbientChangeKeys.ShadePerMin] > 0 && values.Course(AmbientChangeKeys.DaylightLux).Highest > 0;

    private static bool HasSwitching(KeyValues values) => values[AmbientChangeKeys.LampSwitchPerMin] > 0
        && (values.Course(AmbientKeys.LevelNa).Highest > 0 || values.Course(AmbientKeys.LevelLux).Highest > 0);
}
