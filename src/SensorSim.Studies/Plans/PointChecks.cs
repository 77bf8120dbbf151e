// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Plans;

/// <summary>Makes the scenarios of a study's points before anything is run: contradictions come at once, not after an hour.</summary>
internal static class PointChecks
{
    // Beyond that only the corners: a contradiction of two values shows there first, and thousands of points would take long.
    private const int MostMade = 200;
    private const int MostTold = 5;

    /// <summary>Makes them.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="file">What it was read from.</param>
    /// <param name="mistakes">Takes what contradicts.</param>
    public static void Check(StudyPlan plan, StudyFile file, List<ScenarioMistake> mistakes)
    {
        int told = 0;
        int failed = 0;
        foreach ((int point, int subject) in Chosen(plan))
        {
            try
            {
                RunMaker.ScenarioAt(plan, point, subject);
            }
            catch (ScenarioException e)
            {
                failed++;
                if (told < MostTold)
                {
                    told++;
                    mistakes.Add(file.Mistake(PlaceOf(plan, file, e), $"{Name(plan, point, subject)} cannot be made: {OneLine(e)}"));
                }
            }
        }

        if (failed > told)
        {
            mistakes.Add(file.Mistake(
                file.PlaceOf(VaryKeys.Key), string.Create(CultureInfo.InvariantCulture, $"{failed - told} more points cannot be made for such reasons; correct these first")));
        }
    }

    /// <summary>All mistakes of an exception in one line.</summary>
    public static string OneLine(ScenarioException e) => string.Join("; ", e.Mistakes.Take(2).Select(m => m.ToString()));

    /// <summary>A value as messages show it.</summary>
    public static string Text(object value) => value is double number ? number.ToString("R", CultureInfo.InvariantCulture) : $"\"{value}\"";

    /// <summary>Points and persons whose scenarios are made.</summary>
    internal static IReadOnlyList<(int Point, int Subject)> Chosen(StudyPlan plan)
    {
        List<int> points = plan.Points.Count <= MostMade ? [.. Enumerable.Range(0, plan.Points.Count)] : Corners(plan);
        if ((long)points.Count * plan.SubjectCount <= MostMade)
        {
            return [.. points.SelectMany(p => Enumerable.Range(0, plan.SubjectCount).Select(s => (p, s)))];
        }

        return
        [
            .. points.Select(p => (p, 0)),
            .. Enumerable.Range(1, Math.Min(MostMade, plan.SubjectCount) - 1).Select(s => (points[0], s)),
        ];
    }

    private static List<int> Corners(StudyPlan plan)
    {
        var corners = new SortedSet<int>(plan.Points
            .Where(p => p.Values.Zip(plan.Factors).All(v => v.First.Equals(v.Second.Levels[0]) || v.First.Equals(v.Second.Levels[^1])))
            .Select(p => p.Index)
            .Take(MostMade));
        for (int f = 0; f < plan.Factors.Count; f++)
        {
            int factor = f;
            if (plan.Factors[f].IsNumber)
            {
                corners.Add(plan.Points.MinBy(p => (double)p.Values[factor])!.Index);
                corners.Add(plan.Points.MaxBy(p => (double)p.Values[factor])!.Index);
            }
            else
            {
                corners.UnionWith(plan.Points.DistinctBy(p => p.Values[factor]).Select(p => p.Index));
            }
        }

        return [.. corners];
    }

    private static string Name(StudyPlan plan, int point, int subject)
    {
        IEnumerable<string> values = plan.Factors.Zip(plan.Points[point].Values).Where(v => !v.First.IsOfDetector).Select(v => $"{v.First.Key.Name} = {Text(v.Second)}");
        string name = string.Create(CultureInfo.InvariantCulture, $"point {point}");
        string what = string.Join(", ", values);
        string person = plan.SubjectSeeds.Count == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" with person {plan.SubjectSeeds[subject]}");
        return (what.Length == 0 ? name : $"{name} ({what})") + person;
    }

    // The varied key that the sentence names, else the first one, else what all points share.
    private static FilePlace PlaceOf(StudyPlan plan, StudyFile file, ScenarioException e)
    {
        for (int i = 0; i < plan.Factors.Count; i++)
        {
            KeyDefinition key = plan.Factors[i].Key;
            if (e.Mistakes.Any(m => m.Message.Contains(key.Name, StringComparison.Ordinal)))
            {
                return file.PlaceOf(VaryKeys.Key, i);
            }
        }

        return plan.Factors.Count > 0 ? file.PlaceOf(VaryKeys.Key) : file.PlaceOf(StudySectionKeys.SubjectCount);
    }
}
