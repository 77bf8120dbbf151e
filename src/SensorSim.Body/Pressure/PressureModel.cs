// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Pressure;

/// <summary>Arterial pressure over time: a closed form, asked once a beat.</summary>
/// <remarks>
/// <para>
/// Diastolic = knob · (1 − dip · night) + drift − respiratory / 2 · depth of breathing + Mayer wave; systolic = diastolic + pulse
/// pressure · (1 − dip · night). The waves and the drift move both alike: pulse pressure has its own course.
/// </para>
/// <para>
/// The Mayer wave is a Gaussian band, 0.1 Hz with standard deviation 0.01 Hz. Crests and troughs of such a narrow band lie on its
/// envelope, whose mean is √(π/2) standard deviations (Rayleigh distribution; Rice, Bell System Technical Journal 23:282, 1944). So
/// a mean crest-to-trough size of p is a standard deviation of p / √(2π). The diastolic pressure is held above 10 mmHg.
/// </para>
/// </remarks>
public sealed class PressureModel
{
    /// <summary>Lowest diastolic pressure [mmHg].</summary>
    public const double LowestMmhg = 10;

    private const double MayerHz = 0.1;
    private const double MayerWidthHz = 0.01;
    private const double SdOfWave = 0.3989422804014327; // 1 / √(2π)
    private const double SecondsPerWeek = 604800;

    private readonly BreathingModel _breathing;
    private readonly Course _diastolic;
    private readonly Course _pulsePressure;
    private readonly Course _respiratory;
    private readonly Course _mayer;
    private readonly Course _drift;
    private readonly GaussianBand _mayerBand;
    private readonly double _dip;
    private readonly double _startH;

    /// <summary>Creates the pressure.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    /// <param name="breathing">The body's breathing.</param>
    public PressureModel(KeyValues values, ulong seed, BreathingModel breathing)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(breathing);
        _breathing = breathing;
        _diastolic = values.Course(PressureKeys.DiastolicMmhg);
        _pulsePressure = values.Course(PressureKeys.PulsePressureMmhg);
        _respiratory = values.Course(PressureKeys.RespiratoryMmhg);
        _mayer = values.Course(PressureKeys.MayerMmhg);
        _drift = values.Course(PressureKeys.DriftMmhgPerWeek);
        _mayerBand = new GaussianBand(new KeyedRandom(seed, "pressure.mayer"), MayerHz, MayerWidthHz, SdOfWave);
        _dip = values[PressureKeys.CircadianDipPercent] * 0.01;
        _startH = values[PressureKeys.TimeOfDayH];
    }

    /// <summary>The pressure at a time.</summary>
    /// <param name="seconds">Body time [s], negative times included.</param>
    public PressureState At(double seconds) => At(seconds, _breathing.Depth(seconds));

    /// <summary>The pressure at a time at which the depth of breathing is known.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="depth">Depth of breathing then, −1 to +1.</param>
    internal PressureState At(double seconds, double depth)
    {
        double level = _dip == 0 ? 1 : 1 - (_dip * DayCurve.Night(_startH + (seconds / 3600)));
        double mayer = _mayer.Value(seconds);
        double wave = (mayer == 0 ? 0 : mayer * _mayerBand.Value(seconds)) - (0.5 * _respiratory.Value(seconds) * depth);
        double drift = _drift.Integral(seconds) / SecondsPerWeek;
        double diastolic = Math.Max(LowestMmhg, (level * _diastolic.Value(seconds)) + drift + wave);
        return new PressureState(diastolic, diastolic + (level * _pulsePressure.Value(seconds)));
    }
}
