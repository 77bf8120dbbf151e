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
        _hands = other._hands?.Copy();
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

    /// <summary>Finds what is left of each light at up to <see cref="Most"/> samples; spans hold until the next call.</summary>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample; forward only, the same one again is allowed.</param>
    /// <param name="count">Samples.</param>
    /// <param name="mains">Gains of mains-fed light: one for each sample, or a single one for all when nothing happens.</param>
    /// <param name="daylight">Gains of daylight, as many.</param>
    /// <param name="other">Gains of all other light, as many.</param>
    public void Find(
        in SampleGrid grid, long firstIndex, int count, out ReadOnlySpan<double> mains, out ReadOnlySpan<double> daylight, out ReadOnlySpan<double> other)
    {
        Span<double> all = _all.AsSpan(0, count);
        bool isSteady = !Any(all, grid, firstIndex);
        double begin = grid.Seconds(firstIndex);
        double end = grid.Seconds(firstIndex + count - 1);
        double lamp = 1;
        double sun = 1;
        isSteady &= _lamps?.IsSteady(begin, end, out lamp) ?? true;
        isSteady &= _sun?.IsSteady(begin, end, out sun) ?? true;
        count = isSteady ? 1 : count;
        all = all[..count];
        Span<double> lamps = _mains.AsSpan(0, count);
        Span<double> suns = _daylight.AsSpan(0, count);
        if (isSteady)
        {
            lamps[0] = lamp;
            suns[0] = sun;
        }
        else
        {
            Fill(_lamps, lamps, grid, firstIndex);
            Fill(_sun, suns, grid, firstIndex);
        }

        for (int i = 0; i < count; i++)
        {
            lamps[i] *= all[i];
            suns[i] = (1 - (_shade * (1 - suns[i]))) * all[i];
        }

        mains = lamps;
        daylight = suns;
        other = all;
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientChanges Copy() => new(this);

    private static void Fill(AmbientSwitch? telegraph, Span<double> values, in SampleGrid grid, long firstIndex)
    {
        if (telegraph is null)
        {
            values.Fill(1);
        }
        else
        {
            telegraph.Fill(values, grid, firstIndex);
        }
    }

    private bool Any(Span<double> gains, in SampleGrid grid, long firstIndex)
    {
        gains.Fill(1);
        return _hands is not null && _hands.Shade(gains, grid, firstIndex, _hand);
    }

    private static bool HasShade(KeyValues values) =>
        values[AmbientChangeKeys.ShadePerMin] > 0 && values.Course(AmbientChangeKeys.DaylightLux).Highest > 0;

    private static bool HasSwitching(KeyValues values) => values[AmbientChangeKeys.LampSwitchPerMin] > 0
        && (values.Course(AmbientKeys.LevelNa).Highest > 0 || values.Course(AmbientKeys.LevelLux).Highest > 0);
}
