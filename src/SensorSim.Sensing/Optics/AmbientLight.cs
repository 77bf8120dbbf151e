// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Room light as one slot sees it: level, flicker at twice the mains frequency, a pulse-width lamp.</summary>
internal sealed class AmbientLight
{
    private readonly Course _levelCourse;
    private readonly Course _flickerCourse;
    private readonly Course _lampCourse;
    private readonly Course _dutyCourse;
    private readonly double _windowRadians;
    private readonly Rotation _flicker;
    private readonly PulseWidthLamp _lamp;
    private double _levelNa;
    private double _flickerNa;
    private double _lampNa;
    private double _lampDuty;

    public AmbientLight(KeyValues values, ulong seed, WanderingPhase mains)
    {
        double windowSeconds = values[OpticsKeys.IntegrationUs] * 1e-6;
        _levelCourse = values.Course(AmbientKeys.LevelNa);
        _flickerCourse = values.Course(AmbientKeys.FlickerPercent);
        _lampCourse = values.Course(AmbientKeys.PulseWidthLampNa);
        _dutyCourse = values.Course(AmbientKeys.PulseWidthDutyPercent);
        _windowRadians = Math.PI * 2 * mains.FrequencyHz * windowSeconds;
        _flicker = new Rotation(mains, 2);
        _lamp = new PulseWidthLamp(
            values[AmbientKeys.PulseWidthHz],
            new KeyedRandom(seed, "ambient.pulse_width_phase").Uniform(0),
            windowSeconds);
    }

    private AmbientLight(AmbientLight other)
    {
        _levelCourse = other._levelCourse;
        _flickerCourse = other._flickerCourse;
        _lampCourse = other._lampCourse;
        _dutyCourse = other._dutyCourse;
        _windowRadians = other._windowRadians;
        _levelNa = other._levelNa;
        _flickerNa = other._flickerNa;
        _lampNa = other._lampNa;
        _lampDuty = other._lampDuty;
        _flicker = other._flicker.Copy();
        _lamp = other._lamp;
    }

    /// <summary>Mean photocurrent at the values taken last [nA].</summary>
    public double LatchedNa => _levelNa + (_lampNa * _lampDuty);

    /// <summary>Takes the values that the live knobs have at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public void Latch(double seconds)
    {
        _levelNa = _levelCourse.Value(seconds);

        // Integration over the slot averages the flicker: a factor sin(x)/x with x = π × frequency × window.
        _flickerNa = _levelNa * _flickerCourse.Value(seconds) * 0.01 * PortableMath.Sin(_windowRadians) / _windowRadians;
        _lampNa = _lampCourse.Value(seconds);
        _lampDuty = _dutyCourse.Value(seconds) * 0.01;
    }

    /// <summary>Adds the photocurrent [nA] of ambient light.</summary>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_levelNa != 0)
        {
            for (int i = 0; i < buffer.Length; i++)
            {
                buffer[i] += _levelNa;
            }
        }

        if (_flickerNa != 0)
        {
            _flicker.Add(buffer, grid, firstIndex, _flickerNa, 0);
        }

        _lamp.Add(buffer, grid, firstIndex, _lampNa, _lampDuty);
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientLight Copy() => new(this);
}
