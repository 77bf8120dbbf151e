// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;
using static SensorSim.Scenarios.TimeLine.FieldReader;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>The time line of a scenario as read: activities and changes, not yet tied to the values of a person.</summary>
/// <remarks>
/// One rule settles who says what a key does: the table that begins last, from its begin on. What an earlier table still had in mind for
/// the key, the return to sitting among it, is dropped. Of the same begin the later table wins, and a change wins over an activity.
/// Swings come on top and take over nothing.
/// </remarks>
internal sealed class TimeLinePlan
{
    private readonly List<PlannedActivity> _activities = [];
    private readonly List<PlannedChange> _changes = [];

    /// <summary>Number of activities.</summary>
    public int ActivityCount => _activities.Count;

    /// <summary>Number of changes that stand in the scenario themselves.</summary>
    public int ChangeCount => _changes.Count;

    /// <summary>Changes of the sensor's settings.</summary>
    public SettingPlan Settings { get; } = new();

    /// <summary>Reads one table of the time line.</summary>
    /// <param name="table">Which.</param>
    /// <param name="syntax">The table in the file.</param>
    /// <param name="endSeconds">End of the scenario [s]; infinite when it is not known.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public void Read(TimeLineTable table, TableSyntaxBase syntax, double endSeconds, MistakeList mistakes)
    {
        var fields = new FieldReader(table, syntax, mistakes);
        if (table == TimeLineTables.Activity)
        {
            if (ActivityReader.Read(fields, endSeconds) is not PlannedActivity activity)
            {
                return;
            }

            if (_activities.Find(a => a.BeginSeconds == activity.BeginSeconds) is PlannedActivity other)
            {
                mistakes.Add(
                    activity.Place,
                    $"{activity.Activity.Name} begins at {Shown(activity.BeginSeconds)} s like {other.Activity.Name} of line {other.Place.Start.Line + 1}; one activity at a time");
                return;
            }

            _activities.Add(activity);
        }
        else if (table == TimeLineTables.OfSetting)
        {
            Settings.Add(SettingReader.Read(fields, endSeconds));
        }
        else if (ChangeReader.Read(fields, endSeconds) is PlannedChange change)
        {
            _changes.Add(change);
        }
    }

    /// <summary>Gives every key its course.</summary>
    /// <param name="values">Values of the person sitting; what an activity at 0 s sets, and all changes, are added.</param>
    /// <param name="mistakes">Takes values that would leave their range.</param>
    public void Apply(KeyValues values, MistakeList mistakes)
    {
        ApplyCourses(values, mistakes);
        Settings.Check(values, mistakes);
    }

    private void ApplyCourses(KeyValues values, MistakeList mistakes)
    {
        PlannedActivity[] activities = [.. _activities.OrderBy(a => a.BeginSeconds)];
        IEnumerable<PlannedChange> all = ActivityChanges.Apply(values, activities, mistakes).Concat(_changes);
        foreach (IGrouping<string, PlannedChange> ofKey in all.GroupBy(c => c.Key.Name, StringComparer.Ordinal))
        {
            PlannedChange[] taking = [.. ofKey.Where(c => c.Swing is null).OrderBy(c => c.BeginSeconds)];
            if (ofKey.First().Key is ChoiceKey choice)
            {
                (double AtSeconds, string Word)[] words = [.. Kept(taking, c => c.Words, w => w.AtSeconds)];
                if (words.Length > 0)
                {
                    values.SetChanges(choice, words);
                }
            }
            else if (ofKey.First().Key is NumberKey number)
            {
                ApplyNumbers(values, number, [.. Kept(taking, c => c.Numbers, c => c.AtSeconds)], [.. ofKey.Where(c => c.Swing is not null)], mistakes);
            }
        }
    }

    /// <summary>Place of the last table that began by a time and has a say in one of some keys; null when there is none.</summary>
    /// <param name="seconds">The time [s].</param>
    /// <param name="keys">The keys.</param>
    public SourceSpan? PlaceBefore(double seconds, IEnumerable<KeyDefinition> keys)
    {
        IEnumerable<(double Begin, SourceSpan? Place)> activities = _activities.Select(a => (a.BeginSeconds, (SourceSpan?)a.Place));
        IEnumerable<(double Begin, SourceSpan? Place)> changes = _changes.Where(c => keys.Contains(c.Key)).Select(c => (c.BeginSeconds, c.Place));
        return activities.Concat(changes).Where(t => t.Begin <= seconds).OrderBy(t => t.Begin).LastOrDefault().Place;
    }

    private static void ApplyNumbers(KeyValues values, NumberKey key, CourseChange[] changes, PlannedChange[] swings, MistakeList mistakes)
    {
        Oscillation[] oscillations = [.. swings.Select(s => s.Swing!.Value)];
        if (changes.Length + oscillations.Length == 0)
        {
            return;
        }

        var course = new Course(values[key], changes, oscillations);
        for (int i = 0; i < oscillations.Length; i++)
        {
            Oscillation own = oscillations[i];
            (double lowest, double highest) = CourseRange.WithoutSwings(course, own.AtSeconds, own.EndSeconds);
            double room = Math.Min(lowest - key.Minimum, key.Maximum - highest) - CourseRange.OtherSwings(course, i);
            if (Math.Abs(own.Amplitude) > room)
            {
                string right = room > 0 ? $"at most {Shown(Math.Floor(room * 1000) / 1000)} fits" : "no swing fits there";
                mistakes.Add(
                    swings[i].Place,
                    $"swing_by of {key.Name} = {Shown(own.Amplitude)} would leave {key.RangeText} {key.Unit}".TrimEnd() + $"; {right}");
            }
        }

        values.SetChanges(key, changes, oscillations);
    }

    // Each table speaks for the key until the next one begins.
    private static IEnumerable<T> Kept<T>(PlannedChange[] taking, Func<PlannedChange, IReadOnlyList<T>> items, Func<T, double> at)
    {
        for (int i = 0; i < taking.Length; i++)
        {
            double until = i + 1 < taking.Length ? taking[i + 1].BeginSeconds : double.PositiveInfinity;
            foreach (T item in items(taking[i]).Where(item => at(item) < until))
            {
                yield return item;
            }
        }
    }
}
