// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Movement;

/// <summary>What knobs of movement allow each other: for the reader of scenarios, which refuses the rest.</summary>
public static class MovementLimits
{
    /// <summary>Slowest cadence while somebody walks or runs [Hz]; choice of this project.</summary>
    public const double LeastCadenceHz = 0.5;

    /// <summary>Fastest cadence [Hz], the end of the knob's range.</summary>
    public static double MostCadenceHz => MovementKeys.CadenceHz.Maximum;

    /// <summary>Largest spread of the cadence as a share of it: five times as much at the ends of the wander would run backwards.</summary>
    public const double MostSpreadShare = 0.2;

    /// <summary>Slowest and fastest cadence while somebody walks or runs, without the wander, sines on top at their full size.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="slowestHz">Receives the slowest [Hz]; infinity if nobody ever walks or runs.</param>
    /// <param name="fastestHz">Receives the fastest [Hz]; minus infinity then.</param>
    public static void Cadence(KeyValues values, out double slowestHz, out double fastestHz)
    {
        ArgumentNullException.ThrowIfNull(values);
        slowestHz = double.PositiveInfinity;
        fastestHz = double.NegativeInfinity;
        ChoiceCourse activity = values.Course(MovementKeys.Activity);
        Course course = Gait.Cadence(values, activity);
        double sines = course.Oscillations.Sum(o => Math.Abs(o.Amplitude));
        var plain = new Course(course.BaseValue, course.Changes, []);
        for (int stretch = 0; stretch <= activity.Changes.Count; stretch++)
        {
            if (activity.Word(stretch) == "rest")
            {
                continue;
            }

            // Ramps and settling go one way: extremes lie where a change begins or ends, or where walking does.
            double begin = stretch == 0 ? 0 : activity.Changes[stretch - 1].AtSeconds;
            bool isLast = stretch == activity.Changes.Count;
            double end = isLast ? double.PositiveInfinity : activity.Changes[stretch].AtSeconds + GaitStyle.ChangeSeconds;
            IEnumerable<double> found = course.Changes.Where(c => c.AtSeconds >= begin && c.AtSeconds <= end)
                .SelectMany(c => new[] { plain.Value(c.AtSeconds), plain.Value(Math.Min(end, c.AtSeconds + c.OverSeconds)) });
            double last = isLast ? course.Changes.Count > 0 ? course.Changes[^1].Target : course.BaseValue : plain.Value(end);
            foreach (double hertz in found.Append(plain.Value(begin)).Append(last))
            {
                slowestHz = Math.Min(slowestHz, hertz - sines);
                fastestHz = Math.Max(fastestHz, hertz + sines);
            }
        }
    }
}
