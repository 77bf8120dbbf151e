// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using Tomlyn.Syntax;
using static SensorSim.Scenarios.TimeLine.FieldReader;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>An activity of a scenario.</summary>
/// <param name="BeginSeconds">When it begins [s].</param>
/// <param name="EndSeconds">When sitting follows [s]; infinite when nothing is said.</param>
/// <param name="Activity">What the person does.</param>
/// <param name="Intensity">How hard, 0 to 1.</param>
/// <param name="Place">Place of its name, for messages.</param>
internal sealed record PlannedActivity(double BeginSeconds, double EndSeconds, Activity Activity, double Intensity, SourceSpan Place);

/// <summary>Reads one <c>[[activity]]</c>, or says what is wrong with it.</summary>
internal static class ActivityReader
{
    private const double UsualIntensity = 0.5;

    /// <summary>The activity; null after a mistake.</summary>
    /// <param name="fields">Its fields.</param>
    /// <param name="endSeconds">End of the scenario [s].</param>
    public static PlannedActivity? Read(FieldReader fields, double endSeconds)
    {
        double at = fields.Begin(endSeconds);
        double lasts = fields.Has(TimeLineTables.For) ? fields.Positive(TimeLineTables.For) : double.PositiveInfinity;
        Activity? activity = ReadName(fields);
        double intensity = ReadIntensity(fields, activity);
        return fields.IsSound ? new PlannedActivity(at, at + lasts, activity!, intensity, fields.PlaceOf(TimeLineTables.Name)) : null;
    }

    private static Activity? ReadName(FieldReader fields)
    {
        if (fields.Text(TimeLineTables.Name) is not string name)
        {
            return null;
        }

        if (Activities.Find(name) is Activity activity)
        {
            return activity;
        }

        string[] names = [.. Activities.All.Select(a => a.Name)];
        fields.Add(
            fields.PlaceOf(TimeLineTables.Name),
            $"\"{TomlNames.Shown(name)}\" is no activity; the nearest is \"{NearestName.Find(name, names)}\" of \"{string.Join("\", \"", names)}\"");
        return null;
    }

    private static double ReadIntensity(FieldReader fields, Activity? activity)
    {
        const string Field = TimeLineTables.Intensity;
        if (!fields.Has(Field))
        {
            return UsualIntensity;
        }

        double intensity = fields.Number(Field);
        if (activity is { IsExercise: false })
        {
            string hard = string.Join(" and ", Activities.All.Where(a => a.IsExercise).Select(a => a.Name));
            fields.Add(fields.PlaceOf(Field), $"intensity says how hard {hard} is; leave it out for {activity.Name}");
        }
        else if (intensity < 0 || intensity > 1)
        {
            fields.Add(fields.PlaceOf(Field), $"intensity = {Shown(intensity)} is outside of 0 to 1");
        }

        return intensity;
    }
}
