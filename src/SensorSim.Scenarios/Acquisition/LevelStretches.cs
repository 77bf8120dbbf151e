// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Processes;

namespace SensorSim.Scenarios.Acquisition;

/// <summary>A stretch of a channel and the level at its begin.</summary>
/// <param name="FirstSample">Index of its first sample.</param>
/// <param name="Value">The level there.</param>
internal readonly record struct LevelStretch(long FirstSample, double Value);

/// <summary>Cuts a channel into stretches between the changes of a level.</summary>
/// <param name="grid">Sampling instants of the channel.</param>
/// <param name="sampleCount">Number of its samples.</param>
/// <param name="durationSeconds">Length of the scenario [s].</param>
internal sealed class LevelStretches(SampleGrid grid, long sampleCount, double durationSeconds)
{
    // Settling is over to four in a million after so many time constants; the rest of it goes into the last row.
    private const double TimeConstants = 12.5;

    /// <summary>Stretches of a level, in order; the first begins at sample 0.</summary>
    /// <param name="level">The level.</param>
    /// <param name="most">No more than these, the first ones.</param>
    public IReadOnlyList<LevelStretch> Of(Level level, int most)
    {
        var samples = new SortedSet<long> { 0 };
        foreach (double seconds in level.Courses.SelectMany(ChangesOf))
        {
            long sample = LiveLatch.FirstSample(grid, seconds);
            if (sample < sampleCount)
            {
                samples.Add(sample);
            }
        }

        List<LevelStretch> stretches = [];
        foreach (long sample in samples.TakeWhile(_ => stretches.Count < most))
        {
            double value = level.Value(grid.Seconds(sample));
            if (stretches.Count == 0 || stretches[^1].Value != value)
            {
                stretches.Add(new LevelStretch(sample, value));
            }
        }

        return stretches;
    }

    /// <summary>Smallest and largest value that the level has in the samples.</summary>
    /// <param name="level">The level.</param>
    public (double Least, double Most) Extremes(Level level)
    {
        double least = double.PositiveInfinity;
        double most = double.NegativeInfinity;
        for (long sample = 0; sample < sampleCount; sample += LiveLatch.Samples)
        {
            double value = level.Value(grid.Seconds(sample));
            least = Math.Min(least, value);
            most = Math.Max(most, value);
        }

        return (least, most);
    }

    // When a course changes, and every second while it goes on changing.
    private IEnumerable<double> ChangesOf(Course course)
    {
        for (int i = 0; i < course.Changes.Count; i++)
        {
            CourseChange change = course.Changes[i];
            double lasts = change.Kind switch
            {
                ChangeKind.Ramp => change.OverSeconds,
                ChangeKind.Settle => TimeConstants * change.OverSeconds,
                _ => 0,
            };
            double until = i + 1 < course.Changes.Count ? course.Changes[i + 1].AtSeconds : durationSeconds;
            foreach (double seconds in EverySecond(change.AtSeconds, Math.Min(change.AtSeconds + lasts, until)))
            {
                yield return seconds;
            }
        }

        foreach (Oscillation o in course.Oscillations)
        {
            foreach (double seconds in EverySecond(o.AtSeconds, o.EndSeconds))
            {
                yield return seconds;
            }
        }
    }

    private IEnumerable<double> EverySecond(double begin, double end)
    {
        for (int k = 0; begin + k < Math.Min(end, durationSeconds); k++)
        {
            yield return begin + k;
        }

        if (end < durationSeconds)
        {
            yield return end;
        }
    }
}
