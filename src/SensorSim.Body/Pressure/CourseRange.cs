// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Body.Pressure;

/// <summary>Bounds of a knob's course, for checks before anything is made.</summary>
/// <remarks>Steps, ramps and settling stay between start and targets; every sine is counted as if it lay on top of each of them.</remarks>
public static class CourseRange
{
    /// <summary>No value of the course lies below this [the knob's unit].</summary>
    /// <param name="course">The course.</param>
    public static double Lowest(Course course)
    {
        ArgumentNullException.ThrowIfNull(course);
        double lowest = course.BaseValue;
        foreach (CourseChange change in course.Changes)
        {
            lowest = Math.Min(lowest, change.Target);
        }

        return lowest - Swing(course);
    }

    /// <summary>No value of the course lies above this [the knob's unit].</summary>
    /// <param name="course">The course.</param>
    public static double Highest(Course course)
    {
        ArgumentNullException.ThrowIfNull(course);
        double highest = course.BaseValue;
        foreach (CourseChange change in course.Changes)
        {
            highest = Math.Max(highest, change.Target);
        }

        return highest + Swing(course);
    }

    private static double Swing(Course course)
    {
        double swing = 0;
        foreach (Oscillation oscillation in course.Oscillations)
        {
            swing += Math.Abs(oscillation.Amplitude);
        }

        return swing;
    }
}
