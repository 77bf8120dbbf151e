// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Checks;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Plans;

/// <summary>What a user is to be told of a study that can be run as it is, but hardly means what it says.</summary>
public static class StudyNotices
{
    private const string AccelerometerSection = "accelerometer";

    /// <summary>The notices, a sentence each without a full stop.</summary>
    /// <param name="plan">The study; its points can be made.</param>
    public static IReadOnlyList<string> Of(StudyPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. Idle(plan), .. Accelerometer(plan)];
    }

    // Only what has no effect at any point: a key may be there for the levels at which it has one.
    private static List<string> Idle(StudyPlan plan)
    {
        (int Point, int Subject)[] chosen = [.. PointChecks.Chosen(plan)];
        if (chosen.Select(c => c.Point).Distinct().Count() < plan.Points.Count)
        {
            // Of so many points only some are looked at: nothing is known of the others.
            return [];
        }

        // A level may be what the key has anyway, which alone is not told; that of a varied key is, for something was expected of it.
        List<IdleKey>? all = null;
        HashSet<KeyDefinition> asked = [.. plan.Factors.Select(f => f.Key)];
        foreach ((int point, int subject) in chosen)
        {
            Scenario scenario = RunMaker.ScenarioAt(plan, point, subject);
            IReadOnlyList<IdleKey> here = IdleKeys.Of(scenario, withUsual: true);
            all = all is null ? [.. here] : [.. all.Intersect(here)];
            asked.UnionWith(IdleKeys.Of(scenario).Select(i => i.Key));
            if (all.Count == 0)
            {
                break;
            }
        }

        return [.. (all ?? []).Where(i => asked.Contains(i.Key)).Select(i => i.Sentence)];
    }

    private static IEnumerable<string> Accelerometer(StudyPlan plan)
    {
        if (plan.Detectors.All(d => d.Adapter != DetectorAdapter.Library))
        {
            return [];
        }

        // What the library is given of the acceleration depends on these keys alone.
        int[] deciding = [.. Enumerable.Range(0, plan.Factors.Count).Where(f => plan.Factors[f].Key.Section == AccelerometerSection)];
        (string? Notice, int Count)[] kinds =
        [
            .. plan.Points.GroupBy(p => string.Join(' ', deciding.Select(f => PointChecks.Text(p.Values[f]))))
                .Select(g => (AccelerometerCheck.Notice(RunMaker.ScenarioAt(plan, g.First().Index, 0).OpenStream().Format), g.Count())),
        ];
        return kinds.Where(k => k.Notice is not null).Select(k => k.Count == plan.Points.Count
            ? k.Notice!
            : FormattableString.Invariant($"at {k.Count} of {plan.Points.Count} points {k.Notice}"));
    }
}
