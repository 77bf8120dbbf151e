// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Courses;

/// <summary>How a knob goes to a new value.</summary>
public enum ChangeKind
{
    /// <summary>At once.</summary>
    Step,

    /// <summary>In a straight line over the stated time.</summary>
    Ramp,

    /// <summary>Exponentially; the stated time is the time constant.</summary>
    Settle,
}

/// <summary>One change of a knob: from the value it has at that moment to a new one.</summary>
/// <param name="AtSeconds">When it begins [s].</param>
/// <param name="Kind">How it goes.</param>
/// <param name="Target">The new value [the knob's unit].</param>
/// <param name="OverSeconds">Length of a ramp or time constant of settling [s], above 0; ignored for a step.</param>
public readonly record struct CourseChange(double AtSeconds, ChangeKind Kind, double Target, double OverSeconds);

/// <summary>A sine on top of a knob's value; begins at phase 0.</summary>
/// <param name="AtSeconds">When it begins [s].</param>
/// <param name="EndSeconds">When it ends [s].</param>
/// <param name="Amplitude">Half of its peak-to-peak size [the knob's unit].</param>
/// <param name="PeriodSeconds">Its period [s], above 0.</param>
public readonly record struct Oscillation(double AtSeconds, double EndSeconds, double Amplitude, double PeriodSeconds);
