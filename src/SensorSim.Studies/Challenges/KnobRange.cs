// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Signals.Numerics;

namespace SensorSim.Studies.Challenges;

/// <summary>A knob on a given scenario: from the scenario's own value (level 0) to the harsh end (level 1), in round numbers.</summary>
/// <remarks>
/// Values lie on a grid, so that what is found can be read and said: in a range of differences the multiples of 1, 2 or 5 times a power of
/// ten that is at most a hundredth of the range; in a range of ratios two significant digits; whole numbers where the key is whole.
/// </remarks>
public sealed class KnobRange
{
    private readonly RoundStep _step;

    private KnobRange(Knob knob, double from)
    {
        Knob = knob;
        From = from;
        double hundredth = Math.Abs(knob.Harsh - from) / 100;
        _step = RoundStep.AtMost(knob.Key.IsWhole ? Math.Max(1, hundredth) : hundredth);
    }

    /// <summary>The knob.</summary>
    public Knob Knob { get; }

    /// <summary>The scenario's own value, where the knob does nothing.</summary>
    public double From { get; }

    /// <summary>The range on a scenario; null when there is none: the scenario is at the harsh end already, or changes the key over time.</summary>
    /// <param name="knob">The knob.</param>
    /// <param name="scenario">The scenario.</param>
    public static KnobRange? On(Knob knob, Scenario scenario)
    {
        ArgumentNullException.ThrowIfNull(knob);
        ArgumentNullException.ThrowIfNull(scenario);
        double own = scenario.Values.IsSet(knob.Key) ? scenario.Values[knob.Key] : knob.Mild;

        // Ratios cannot begin at nothing.
        double from = knob.IsInRatios && own <= 0 ? knob.Mild : own;
        bool isUp = knob.Harsh > knob.Mild;
        bool hasRoom = isUp ? from < knob.Harsh : from > knob.Harsh;
        return scenario.Values.IsChanging(knob.Key) || !hasRoom ? null : new KnobRange(knob, from);
    }

    /// <summary>How far up a value is [0 to 1].</summary>
    /// <param name="value">The value.</param>
    public double LevelOf(double value) => Knob.IsInRatios
        ? PortableMath.Log(value / From) / PortableMath.Log(Knob.Harsh / From)
        : (value - From) / (Knob.Harsh - From);

    /// <summary>The value on the grid nearest to a level; null when that is the scenario's own.</summary>
    /// <param name="level">The level [0 to 1].</param>
    public double? ValueAt(double level)
    {
        double share = Math.Clamp(level, 0, 1);
        double exact = Knob.IsInRatios
            ? From * PortableMath.Exp(share * PortableMath.Log(Knob.Harsh / From))
            : From + (share * (Knob.Harsh - From));
        return Inside(StepAt(exact).Nearest(exact));
    }

    /// <summary>The next milder value on the grid; null when that is the scenario's own.</summary>
    /// <param name="value">A value on the grid.</param>
    public double? Milder(double value)
    {
        RoundStep step = StepAt(value);
        double next = Knob.Harsh > From ? step.Below(value) : step.Above(value);
        return Inside(next);
    }

    private RoundStep StepAt(double value) => Knob.IsInRatios ? RoundStep.OfTwoDigits(value) : _step;

    // Rounding may lead out of the range; at its mild end there is nothing left to turn.
    private double? Inside(double value)
    {
        bool isUp = Knob.Harsh > From;
        double inside = isUp ? Math.Min(value, Knob.Harsh) : Math.Max(value, Knob.Harsh);
        return (isUp ? inside > From : inside < From) ? inside : null;
    }
}
