// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Smallest and largest value of a course.</summary>
internal static class CourseRange
{
    // A value just before a change is asked for this much earlier; no change is meant to be shorter.
    private const double JustBeforeSeconds = 1e-6;

    /// <summary>Smallest and largest value of a course without its sines in a stretch of time.</summary>
    /// <param name="course">The course.</param>
    /// <param name="beginSeconds">Begin of the stretch [s].</param>
    /// <param name="endSeconds">End of the stretch [s].</param>
    /// <remarks>Every change goes one way, so the extremes stand at the ends of the stretch and where one change follows another.</remarks>
    public static (double Lowest, double Highest) WithoutSwings(Course course, double beginSeconds, double endSeconds)
    {
        Course steady = course.Oscillations.Count == 0 ? course : new Course(course.BaseValue, course.Changes, []);
        double lowest = steady.Value(beginSeconds);
        double highest = lowest;
        foreach (CourseChange change in steady.Changes)
        {
            if (change.AtSeconds > beginSeconds && change.AtSeconds < endSeconds)
            {
                Take(steady.Value(change.AtSeconds - JustBeforeSeconds));
                Take(steady.Value(change.AtSeconds));
            }
        }

        Take(steady.Value(endSeconds - JustBeforeSeconds));
        return (lowest, highest);

        void Take(double value)
        {
            lowest = Math.Min(lowest, value);
            highest = Math.Max(highest, value);
        }
    }

    /// <summary>How far the other sines that last at the same time reach.</summary>
    /// <param name="course">The course.</param>
    /// <param name="index">Number of the sine that is asked for.</param>
    public static double OtherSwings(Course course, int index)
    {
        Oscillation own = course.Oscillations[index];
        double sum = 0;
        for (int i = 0; i < course.Oscillations.Count; i++)
        {
            Oscillation other = course.Oscillations[i];
            if (i != index && other.AtSeconds < own.EndSeconds && own.AtSeconds < other.EndSeconds)
            {
                sum += Math.Abs(other.Amplitude);
            }
        }

        return sum;
    }
}
