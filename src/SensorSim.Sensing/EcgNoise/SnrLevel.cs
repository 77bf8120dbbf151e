// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>A level that is given as a voltage, as a ratio to the QRS, or as both, which then add in power.</summary>
internal sealed class SnrLevel
{
    private readonly Course _own;
    private readonly double _perUnit;
    private readonly Course _decibel;
    private readonly double _cleanest;
    private readonly bool _hasDecibel;
    private readonly double _signalPower;

    /// <summary>Creates a level.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="own">The level as a voltage.</param>
    /// <param name="perUnit">Millivolts in a unit of it.</param>
    /// <param name="decibel">The level as a ratio.</param>
    /// <param name="signalPower">Power of the signal [mV²].</param>
    public SnrLevel(KeyValues values, NumberKey own, double perUnit, NumberKey decibel, double signalPower)
    {
        _own = values.Course(own);
        _perUnit = perUnit;
        _decibel = values.Course(decibel);
        _cleanest = decibel.Default;
        _hasDecibel = values.IsSet(decibel);
        _signalPower = signalPower;
    }

    /// <summary>Whether the level is 0 throughout.</summary>
    public bool IsOff => _own.IsConstant && _own.BaseValue == 0 && ((!_hasDecibel && _decibel.IsConstant) || _signalPower == 0);

    /// <summary>The courses that it follows.</summary>
    public Course[] Courses => [_own, _decibel];

    /// <summary>The level at a time in the unit of its voltage: where no ratio is given, the knob to the bit.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="perRms">What an rms of 1 is in that measure.</param>
    public double Own(double seconds, double perRms) => IsVoltageAlone(_decibel.Value(seconds)) ? _own.Value(seconds) : Mv(seconds, perRms) / _perUnit;

    /// <summary>The level at a time [mV rms], the voltage being one.</summary>
    /// <param name="seconds">Body time [s].</param>
    public double Mv(double seconds) => Mv(seconds, 1);

    /// <summary>The level at a time [mV], in the measure of its voltage.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="perRms">What an rms of 1 is in that measure.</param>
    public double Mv(double seconds, double perRms)
    {
        double own = _own.Value(seconds) * _perUnit;
        double decibel = _decibel.Value(seconds);

        if (IsVoltageAlone(decibel))
        {
            return own;
        }

        double byRatio = perRms * Math.Sqrt(_signalPower * Decibels.Power(-decibel));
        return Math.Sqrt((own * own) + (byRatio * byRatio));
    }

    // A ratio that the scenario does not give stands at its cleanest until its first change, and is no noise at all.
    private bool IsVoltageAlone(double decibel) => !_hasDecibel && decibel == _cleanest;
}
