// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Optics;

/// <summary>The live knobs of room light at a time.</summary>
/// <param name="MainsNa">Mean photocurrent of mains-fed light [nA].</param>
/// <param name="FlickerNa">Amplitudes of its flicker before averaging over a slot: fundamental, second, third; the fourth lane is 0 [nA].</param>
/// <param name="DaylightNa">Photocurrent of daylight in the sun [nA].</param>
/// <param name="ShadeDepth">Share of the daylight that shade takes, 0 to 1.</param>
/// <param name="HandDepth">Share of all light that a hand takes at the middle of its shadow, 0 to 1.</param>
/// <param name="LampNa">Photocurrent of the pulse-width lamp while it is on [nA].</param>
/// <param name="LampDuty">Share of time during which it is on, 0 to 1.</param>
internal readonly record struct AmbientLevels(
    double MainsNa, Vector256<double> FlickerNa, double DaylightNa, double ShadeDepth, double HandDepth, double LampNa, double LampDuty);

/// <summary>The courses of the live knobs of room light. Without state: a copy may share it.</summary>
internal sealed class AmbientCourses
{
    private readonly Course _level;
    private readonly Course _lux;
    private readonly Course _flicker;
    private readonly Course _second;
    private readonly Course _third;
    private readonly Course _daylight;
    private readonly Course _shade;
    private readonly Course _hand;
    private readonly Course _lamp;
    private readonly Course _duty;
    private readonly double _naPerLux;
    private readonly double _daylightNaPerLux;

    /// <summary>Takes the courses of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    public AmbientCourses(KeyValues values)
    {
        _level = values.Course(AmbientKeys.LevelNa);
        _lux = values.Course(AmbientKeys.LevelLux);
        _flicker = values.Course(AmbientKeys.FlickerPercent);
        _second = values.Course(AmbientKeys.FlickerSecondPercent);
        _third = values.Course(AmbientKeys.FlickerThirdPercent);
        _daylight = values.Course(AmbientChangeKeys.DaylightLux);
        _shade = values.Course(AmbientChangeKeys.ShadeDepthPercent);
        _hand = values.Course(AmbientChangeKeys.HandDepthPercent);
        _lamp = values.Course(AmbientKeys.PulseWidthLampNa);
        _duty = values.Course(AmbientKeys.PulseWidthDutyPercent);
        _naPerLux = values[AmbientKeys.NaPerLux];
        _daylightNaPerLux = values[AmbientChangeKeys.DaylightNaPerLux];
        AreConstant = AmbientKeys.Live.All(key => values.Course(key).IsConstant);
    }

    /// <summary>Whether none of them ever changes.</summary>
    public bool AreConstant { get; }

    /// <summary>What they are at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    public AmbientLevels At(double seconds)
    {
        double mainsNa = _level.Value(seconds) + (_lux.Value(seconds) * _naPerLux);
        double first = mainsNa * _flicker.Value(seconds) * 0.01;
        return new AmbientLevels(
            mainsNa,
            Vector256.Create(first, first * _second.Value(seconds) * 0.01, first * _third.Value(seconds) * 0.01, 0),
            _daylight.Value(seconds) * _daylightNaPerLux,
            _shade.Value(seconds) * 0.01,
            _hand.Value(seconds) * 0.01,
            _lamp.Value(seconds),
            _duty.Value(seconds) * 0.01);
    }
}
