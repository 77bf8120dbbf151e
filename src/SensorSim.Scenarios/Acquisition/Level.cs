// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>One level of a channel over time.</summary>
/// <param name="Item">Its name in <c>acquisition.csv</c>, without the prefix.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Value">The level at a body time [s].</param>
/// <param name="Courses">The courses of the knobs that it follows.</param>
internal sealed record Level(string Item, string Unit, Func<double, double> Value, IReadOnlyList<Course> Courses)
{
    /// <summary>Value that stands for nothing to tell: 0, for ratios infinity.</summary>
    public double OffValue { get; init; }

    /// <summary>A level that is a knob itself.</summary>
    public Level(string item, string unit, Course course)
        : this(item, unit, course.Value, [course])
    {
    }

    /// <summary>A level that counts only while another one is not 0.</summary>
    public Level(string item, string unit, Course course, Course carrier)
        : this(item, unit, t => carrier.Value(t) == 0 ? 0 : course.Value(t), [course, carrier])
    {
    }
}
