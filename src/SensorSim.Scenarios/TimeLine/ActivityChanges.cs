// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Movement;
using SensorSim.Body.Pressure;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Subject;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using static SensorSim.Scenarios.TimeLine.FieldReader;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Turns the activities of a scenario into changes of keys.</summary>
/// <remarks>
/// What the scenario sets is the person sitting at rest; every target is relative to it. An activity at 0 s has been going on for long:
/// it begins settled.
/// </remarks>
internal static class ActivityChanges
{
    private static readonly (NumberKey Key, Func<Activity, double, double, double, double> Target)[] s_numbers =
    [
        (HeartKeys.RateBpm, HeartRate),
        (BreathingKeys.RatePerMin, (a, hard, rest, _) => (rest * a.BreathingFactor)
            + (a.BreathingReserve.At(hard) * Math.Max(0, Activities.LargestBreathingPerMin - rest))),
        (HeartKeys.RespiratoryVariabilityMs, (a, hard, rest, _) => rest * a.RespiratoryVariability.At(hard)),
        (HeartKeys.SlowVariabilityMs, (a, hard, rest, _) => rest * a.SlowVariability.At(hard)),
        (HeartKeys.DriftVariabilityMs, (a, hard, rest, _) => rest * a.SlowVariability.At(hard)),
        (PressureKeys.DiastolicMmhg, (a, hard, rest, _) => rest + a.DiastolicMmhg.At(hard)),
        (PressureKeys.PulsePressureMmhg, (a, hard, rest, _) => rest + a.PulsePressureMmhg.At(hard)
            + (a.PulsePressureReserve.At(hard) * Math.Max(0, Activities.LargestPulsePressureMmhg - rest))),
    ];

    private static readonly (ChoiceKey Key, Func<Activity, string> Word)[] s_words =
    [
        (MovementKeys.Activity, a => a.Movement),
        (MovementKeys.Posture, a => a.Posture),
    ];

    /// <summary>Every key that an activity changes.</summary>
    public static IEnumerable<KeyDefinition> Keys => [.. s_numbers.Select(n => n.Key), MovementKeys.CadenceHz, .. s_words.Select(w => w.Key)];

    /// <summary>Sets what holds from the start, and gives the changes after it.</summary>
    /// <param name="values">Values of the person sitting.</param>
    /// <param name="activities">The activities, in order of time.</param>
    /// <param name="mistakes">Takes targets out of range.</param>
    public static List<PlannedChange> Apply(KeyValues values, IReadOnlyList<PlannedActivity> activities, MistakeList mistakes)
    {
        var changes = new List<PlannedChange>();
        double age = values[SubjectKeys.AgeYears];
        double restingRate = values[HeartKeys.RateBpm];
        foreach ((NumberKey key, Func<Activity, double, double, double, double> target) in s_numbers)
        {
            double rest = values[key];
            AddNumbers(changes, values, key, activities, mistakes, (p, before) =>
                (ChangeKind.Settle, target(p.Activity, p.Intensity, rest, age), SettleSeconds(before, p.Activity, p.Intensity, restingRate, age)));
        }

        AddNumbers(changes, values, MovementKeys.CadenceHz, activities, mistakes, (p, _) =>
            p.Activity.CadenceHz is Graded steps ? (ChangeKind.Step, steps.At(p.Intensity), 0) : null);
        foreach ((ChoiceKey key, Func<Activity, string> word) in s_words)
        {
            AddWords(changes, values, key, activities, word);
        }

        return changes;
    }

    private static double HeartRate(Activity activity, double intensity, double rest, double age) => (rest * activity.HeartFactor)
        + (activity.HeartReserve.At(intensity) * Math.Max(0, Activities.LargestHeartRateBpm(age) - rest));

    // The way down from exercise is slower than the way up.
    private static double SettleSeconds(PlannedActivity? before, Activity activity, double intensity, double rest, double age)
    {
        bool falls = before is { Activity.IsExercise: true }
            && HeartRate(activity, intensity, rest, age) < HeartRate(before.Activity, before.Intensity, rest, age);
        return falls ? Math.Max(Activities.RecoverySeconds, activity.SettleSeconds) : activity.SettleSeconds;
    }

    private static void AddNumbers(
        List<PlannedChange> changes,
        KeyValues values,
        NumberKey key,
        IReadOnlyList<PlannedActivity> activities,
        MistakeList mistakes,
        Func<PlannedActivity, PlannedActivity?, (ChangeKind Kind, double Target, double Seconds)?> change)
    {
        foreach ((PlannedActivity planned, PlannedActivity? before) in WithBefore(activities))
        {
            var numbers = new List<CourseChange>();
            if (change(planned, before) is (ChangeKind kind, double target, double seconds))
            {
                if (!(target >= key.Minimum && target <= key.Maximum))
                {
                    string higher = target < key.Minimum ? "higher" : "lower";
                    mistakes.Add(
                        planned.Place,
                        $"{planned.Activity.Name} would take {key.Name} to {Shown(Math.Round(target * 10) / 10)}, outside of {key.RangeText} {key.Unit}; set {key.Key} in [{key.Section}] {higher}");
                    continue;
                }

                if (planned.BeginSeconds > 0)
                {
                    numbers.Add(new CourseChange(planned.BeginSeconds, kind, target, seconds));
                }
                else
                {
                    values.Set(key, target);
                }
            }

            PlannedActivity sitting = Sitting(planned);
            if (sitting.BeginSeconds < double.PositiveInfinity && change(sitting, planned) is (ChangeKind back, double rest, double backSeconds))
            {
                numbers.Add(new CourseChange(sitting.BeginSeconds, back, rest, backSeconds));
            }

            changes.Add(new PlannedChange { Key = key, BeginSeconds = planned.BeginSeconds, Numbers = numbers });
        }
    }

    private static void AddWords(
        List<PlannedChange> changes, KeyValues values, ChoiceKey key, IReadOnlyList<PlannedActivity> activities, Func<Activity, string> word)
    {
        foreach (PlannedActivity planned in activities)
        {
            var words = new List<(double AtSeconds, string Word)>();
            if (planned.BeginSeconds > 0)
            {
                words.Add((planned.BeginSeconds, word(planned.Activity)));
            }
            else if (key.Choices.Contains(word(planned.Activity), StringComparer.Ordinal))
            {
                values.Set(key, word(planned.Activity));
            }

            if (planned.EndSeconds < double.PositiveInfinity)
            {
                words.Add((planned.EndSeconds, word(Activities.Sitting)));
            }

            words.RemoveAll(w => !key.Choices.Contains(w.Word, StringComparer.Ordinal));
            changes.Add(new PlannedChange { Key = key, BeginSeconds = planned.BeginSeconds, Words = words });
        }
    }

    // An activity that is over has left the person sitting.
    private static IEnumerable<(PlannedActivity Planned, PlannedActivity? Before)> WithBefore(IReadOnlyList<PlannedActivity> activities)
    {
        PlannedActivity? before = null;
        foreach (PlannedActivity planned in activities)
        {
            yield return (planned, before is not null && before.EndSeconds <= planned.BeginSeconds ? null : before);
            before = planned;
        }
    }

    private static PlannedActivity Sitting(PlannedActivity after) =>
        after with { BeginSeconds = after.EndSeconds, EndSeconds = double.PositiveInfinity, Activity = Activities.Sitting };
}
