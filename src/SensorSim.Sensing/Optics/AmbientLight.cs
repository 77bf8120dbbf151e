// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Room light as one slot sees it: mains-fed lamps with their flicker, daylight, a pulse-width lamp, and what happens to them.</summary>
internal sealed class AmbientLight
{
    private readonly Course _levelCourse;
    private readonly Course _luxCourse;
    private readonly Course _flickerCourse;
    private readonly Course _secondCourse;
    private readonly Course _thirdCourse;
    private readonly Course _daylightCourse;
    private readonly Course _lampCourse;
    private readonly Course _dutyCourse;
    private readonly double _naPerLux;
    private readonly double _daylightNaPerLux;
    private readonly double _mainsHz;
    private readonly RotationGroup _flicker;
    private readonly PulseWidthLamp _lamp;
    private readonly AmbientChanges? _changes;
    private readonly double[] _part;
    private double _windowSeconds;
    private double _levelNa;
    private double _daylightNa;
    private Vector256<double> _lampFlickerNa;
    private Vector256<double> _flickerNa;
    private double _lampNa;
    private double _lampDuty;

    public AmbientLight(KeyValues values, ulong seed, WanderingPhase mains)
    {
        _windowSeconds = values[OpticsKeys.IntegrationUs] * 1e-6;
        _levelCourse = values.Course(AmbientKeys.LevelNa);
        _luxCourse = values.Course(AmbientKeys.LevelLux);
        _flickerCourse = values.Course(AmbientKeys.FlickerPercent);
        _secondCourse = values.Course(AmbientKeys.FlickerSecondPercent);
        _thirdCourse = values.Course(AmbientKeys.FlickerThirdPercent);
        _daylightCourse = values.Course(AmbientChangeKeys.DaylightLux);
        _lampCourse = values.Course(AmbientKeys.PulseWidthLampNa);
        _dutyCourse = values.Course(AmbientKeys.PulseWidthDutyPercent);
        _naPerLux = values[AmbientKeys.NaPerLux];
        _daylightNaPerLux = values[AmbientChangeKeys.DaylightNaPerLux];
        _mainsHz = mains.FrequencyHz;

        // Lanes cost time at every anchor: only as many as may ever be lit.
        bool hasHarmonics = _secondCourse.Highest > 0 || _thirdCourse.Highest > 0;
        _flicker = new RotationGroup(mains, hasHarmonics ? [2, 4, 6] : [2]);
        _lamp = new PulseWidthLamp(values[AmbientKeys.PulseWidthHz], new KeyedRandom(seed, "ambient.pulse_width_phase").Uniform(0));
        _changes = AmbientChanges.Any(values) ? new AmbientChanges(values, seed) : null;
        _part = _changes is null ? [] : new double[AmbientChanges.Most];
    }

    private AmbientLight(AmbientLight other)
    {
        _levelCourse = other._levelCourse;
        _luxCourse = other._luxCourse;
        _flickerCourse = other._flickerCourse;
        _secondCourse = other._secondCourse;
        _thirdCourse = other._thirdCourse;
        _daylightCourse = other._daylightCourse;
        _lampCourse = other._lampCourse;
        _dutyCourse = other._dutyCourse;
        _naPerLux = other._naPerLux;
        _daylightNaPerLux = other._daylightNaPerLux;
        _mainsHz = other._mainsHz;
        _flicker = other._flicker.Copy();
        _lamp = other._lamp;
        _changes = other._changes?.Copy();
        _part = new double[other._part.Length];
        _windowSeconds = other._windowSeconds;
        _levelNa = other._levelNa;
        _daylightNa = other._daylightNa;
        _lampFlickerNa = other._lampFlickerNa;
        _flickerNa = other._flickerNa;
        _lampNa = other._lampNa;
        _lampDuty = other._lampDuty;
        LatchedNa = other.LatchedNa;
    }

    /// <summary>Mean photocurrent at the latch [nA], flicker and the lamp's pulses averaged out: what shot noise and saturation go by.</summary>
    public double LatchedNa { get; private set; }

    /// <summary>Whether values make light that changes by itself, so that its channel must latch again and again for <see cref="LatchedNa"/>.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static bool ChangesByItself(KeyValues values) => AmbientChanges.Any(values);

    /// <summary>Sets the integration time of the slot for the samples that are made next.</summary>
    /// <param name="seconds">Integration time, centred on the sampling instant [s], above 0.</param>
    public void SetIntegration(double seconds)
    {
        _windowSeconds = seconds;
        AverageFlicker();
    }

    /// <summary>Takes the values that the live knobs have at the instant of the sample that is made next.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        _levelNa = _levelCourse.Value(seconds) + (_luxCourse.Value(seconds) * _naPerLux);
        _daylightNa = _daylightCourse.Value(seconds) * _daylightNaPerLux;

        double first = _levelNa * _flickerCourse.Value(seconds) * 0.01;
        _lampFlickerNa = Vector256.Create(first, first * _secondCourse.Value(seconds) * 0.01, first * _thirdCourse.Value(seconds) * 0.01, 0);
        AverageFlicker();
        _lampNa = _lampCourse.Value(seconds);
        _lampDuty = _dutyCourse.Value(seconds) * 0.01;
        double lampMean = _lampNa * _lampDuty;
        LatchedNa = _levelNa + _daylightNa + lampMean;
        if (_changes is not null)
        {
            _changes.Latch(seconds);
            _changes.Find(new SampleGrid(seconds, 1), 0, 1, out ReadOnlySpan<double> mains, out ReadOnlySpan<double> daylight, out ReadOnlySpan<double> other);
            LatchedNa = (_levelNa * mains[0]) + (_daylightNa * daylight[0]) + (lampMean * other[0]);
        }
    }

    /// <summary>Adds the photocurrent [nA] of ambient light.</summary>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_changes is null)
        {
            if (_levelNa + _daylightNa != 0)
            {
                AddLevels(buffer);
            }

            AddFlicker(buffer, grid, firstIndex);
            _lamp.Add(buffer, grid, firstIndex, _lampNa, _lampDuty, _windowSeconds);
            return;
        }

        for (int done = 0; done < buffer.Length; done += AmbientChanges.Most)
        {
            AddChanging(buffer.Slice(done, Math.Min(AmbientChanges.Most, buffer.Length - done)), grid, firstIndex + done);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientLight Copy() => new(this);

    // Integration over the slot averages the flicker: a factor sin(x)/x with x = π × frequency × window.
    private void AverageFlicker()
    {
        double radians = Math.PI * 2 * _mainsHz * _windowSeconds;
        _flickerNa = Vector256.Create(
            _lampFlickerNa[0] * PortableMath.Sin(radians) / radians,
            _lampFlickerNa[1] * PortableMath.Sin(2 * radians) / (2 * radians),
            _lampFlickerNa[2] * PortableMath.Sin(3 * radians) / (3 * radians),
            0);
    }

    private void AddLevels(Span<double> buffer)
    {
        SpanLanes.Add(buffer, _levelNa + _daylightNa);
    }

    private void AddFlicker(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_flickerNa[0] != 0)
        {
            _flicker.Add(buffer, grid, firstIndex, _flickerNa, Vector256<double>.Zero);
        }
    }

    private void AddChanging(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        _changes!.Find(
            grid, firstIndex, buffer.Length, out ReadOnlySpan<double> mains, out ReadOnlySpan<double> daylight, out ReadOnlySpan<double> other);
        Span<double> part = _part.AsSpan(0, buffer.Length);
        part.Fill(_levelNa);
        AddFlicker(part, grid, firstIndex);
        bool isSteady = mains.Length < buffer.Length;
        if (isSteady)
        {
            double lit = mains[0];
            SpanLanes.AddProduct(buffer, part, lit);
            SpanLanes.Add(buffer, _daylightNa * daylight[0]);
        }
        else
        {
            SpanLanes.AddProduct(buffer, part, mains);
            SpanLanes.AddProduct(buffer, daylight, _daylightNa);
        }

        if (_lampNa != 0)
        {
            part.Clear();
            _lamp.Add(part, grid, firstIndex, _lampNa, _lampDuty, _windowSeconds);
            if (isSteady)
            {
                SpanLanes.AddProduct(buffer, part, other[0]);
            }
            else
            {
                SpanLanes.AddProduct(buffer, part, other);
            }
        }
    }
}
