// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Courses;

/// <summary>The value of a knob over time: a base value, changes one after the other, and sines on top; a closed form with its integral.</summary>
/// <remarks>
/// Before the first change the value is the base value. A change starts from the value that the one before has reached, so a ramp that is
/// cut short by the next change leaves no jump. Safe for several threads.
/// </remarks>
public sealed class Course
{
    private readonly double _base;
    private readonly CourseChange[] _changes;
    private readonly double[] _from;
    private readonly double[] _integralAtStart;
    private readonly Oscillation[] _oscillations;

    /// <summary>Creates a course that stays the same.</summary>
    /// <param name="value">The value [the knob's unit].</param>
    public Course(double value)
        : this(value, [], [])
    {
    }

    /// <summary>Creates a course.</summary>
    /// <param name="baseValue">Value before the first change [the knob's unit].</param>
    /// <param name="changes">Changes; sorted here by time, those of the same time stay in their order and the last one wins.</param>
    /// <param name="oscillations">Sines on top, in any order.</param>
    public Course(double baseValue, IEnumerable<CourseChange> changes, IEnumerable<Oscillation> oscillations)
    {
        _base = baseValue;
        _changes = [.. changes.OrderBy(c => c.AtSeconds)];
        _oscillations = [.. oscillations];
        _from = new double[_changes.Length];
        _integralAtStart = new double[_changes.Length];
        for (int i = 0; i < _changes.Length; i++)
        {
            double at = _changes[i].AtSeconds;
            _from[i] = i == 0 ? baseValue : ValueOf(i - 1, at);
            _integralAtStart[i] = i == 0 ? baseValue * at : _integralAtStart[i - 1] + IntegralOf(i - 1, at);
        }
    }

    /// <summary>Whether the value never changes.</summary>
    public bool IsConstant => _changes.Length == 0 && _oscillations.Length == 0;

    /// <summary>Whether it is one value throughout.</summary>
    /// <param name="value">The value.</param>
    public bool IsAlways(double value) => IsConstant && _base == value;

    /// <summary>Value before the first change [the knob's unit].</summary>
    public double BaseValue => _base;

    /// <summary>The changes, in order of time.</summary>
    public IReadOnlyList<CourseChange> Changes => _changes;

    /// <summary>The sines on top.</summary>
    public IReadOnlyList<Oscillation> Oscillations => _oscillations;

    /// <summary>
    /// No value lies below this [the knob's unit]. Changes stay between start and targets; every sine is counted as if it lay on top of each.
    /// </summary>
    public double Lowest => _changes.Aggregate(_base, (least, change) => Math.Min(least, change.Target)) - Swing;

    /// <summary>No value lies above this [the knob's unit].</summary>
    public double Highest => _changes.Aggregate(_base, (most, change) => Math.Max(most, change.Target)) + Swing;

    private double Swing => _oscillations.Aggregate(0.0, (sum, o) => sum + Math.Abs(o.Amplitude));

    /// <summary>The value at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    public double Value(double seconds) => IsConstant ? _base : ValueAt(seconds);

    /// <summary>The integral of the value from time 0 to a time, negative times included: the phase of a frequency that follows the course.</summary>
    /// <param name="seconds">Time [s].</param>
    /// <returns>[the knob's unit × s].</returns>
    public double Integral(double seconds)
    {
        int i = LastChange(seconds);
        double integral = i < 0 ? _base * seconds : _integralAtStart[i] + IntegralOf(i, seconds);
        foreach (Oscillation o in _oscillations)
        {
            double lasted = Math.Min(seconds, o.EndSeconds) - o.AtSeconds;
            if (lasted > 0)
            {
                PortableMath.SinCosTurns(lasted / o.PeriodSeconds, out _, out double cos);
                integral += o.Amplitude * o.PeriodSeconds / (2 * Math.PI) * (1 - cos);
            }
        }

        return integral;
    }

    /// <summary>The course times a factor.</summary>
    /// <param name="factor">The factor.</param>
    public Course Scaled(double factor) => new(
        _base * factor,
        _changes.Select(c => c with { Target = c.Target * factor }),
        _oscillations.Select(o => o with { Amplitude = o.Amplitude * factor }));

    private int LastChange(double seconds)
    {
        int low = 0;
        int high = _changes.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_changes[middle].AtSeconds <= seconds)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low - 1;
    }

    private double ValueAt(double seconds)
    {
        int i = LastChange(seconds);
        double value = i < 0 ? _base : ValueOf(i, seconds);
        foreach (Oscillation o in _oscillations)
        {
            if (seconds >= o.AtSeconds && seconds < o.EndSeconds)
            {
                PortableMath.SinCosTurns((seconds - o.AtSeconds) / o.PeriodSeconds, out double sin, out _);
                value += o.Amplitude * sin;
            }
        }

        return value;
    }

    private double ValueOf(int index, double seconds)
    {
        CourseChange change = _changes[index];
        double lasted = seconds - change.AtSeconds;
        double from = _from[index];
        return change.Kind switch
        {
            ChangeKind.Ramp when lasted < change.OverSeconds => from + ((change.Target - from) * (lasted / change.OverSeconds)),
            ChangeKind.Settle => change.Target + ((from - change.Target) * PortableMath.Exp(-lasted / change.OverSeconds)),
            _ => change.Target,
        };
    }

    // From the change's own start.
    private double IntegralOf(int index, double seconds)
    {
        CourseChange change = _changes[index];
        double lasted = seconds - change.AtSeconds;
        double difference = change.Target - _from[index];
        switch (change.Kind)
        {
            case ChangeKind.Ramp when lasted < change.OverSeconds:
                return lasted * (_from[index] + (0.5 * difference * lasted / change.OverSeconds));
            case ChangeKind.Ramp:
                return (change.Target * lasted) - (0.5 * difference * change.OverSeconds);
            case ChangeKind.Settle:
                return (change.Target * lasted) - (difference * change.OverSeconds * (1 - PortableMath.Exp(-lasted / change.OverSeconds)));
            default:
                return change.Target * lasted;
        }
    }
}
