// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>What was run, and what came out in a few sentences.</summary>
internal static class StudyFacts
{
    /// <summary>What a reader must not take from the page.</summary>
    internal static readonly string[] Cautions =
    [
        "Simulated performance is not clinical evidence: it shows how a detector behaves on signals of this generator, not on patients.",
        "Figures hold for this scenario, these levels, seeds and persons; nothing is said about levels outside of them.",
        "Beats of one run, and runs of one seed or person, are not independent. Where intervals are given they resample whole seeds and persons; they tell the uncertainty of the simulation, not how far the simulation is from the world.",
    ];

    /// <summary>Names and values for the table of what was run.</summary>
    internal static IEnumerable<(string Name, string Text)> WhatWasRun(StudyResults results, PointLayout layout, StudyReportOptions options)
    {
        StudyPlan plan = results.Plan;
        yield return ("study file", Path.GetFileName(plan.File));
        yield return ("scenario", $"{plan.Scenario.Title} ({Path.GetFileName(plan.Scenario.File)}), {Numbers.Short(plan.Scenario.DurationS)} s a run");
        foreach (Factor factor in plan.Factors)
        {
            yield return ("varied", Varied(plan, layout, factor));
        }

        yield return ("points", $"{Numbers.Whole(plan.Points.Count)}, {Layout(layout.Kind)}");
        yield return ("seeds", Seeds(plan.Seeds));
        yield return ("persons", plan.SubjectSeeds.Count == 0 ? plan.Scenario.Subject is null ? "none drawn" : "the scenario's own" : Seeds(plan.SubjectSeeds));
        for (int i = 0; i < plan.Detectors.Count; i++)
        {
            string identity = i < options.DetectorIdentities.Count ? $": {options.DetectorIdentities[i]}" : "";
            string loop = plan.Detectors[i].IsLoopClosed ? FormattableString.Invariant($", closed loop with {plan.Detectors[i].LatencyMs} ms latency") : "";
            string constants = string.Concat(plan.Detectors[i].Constants.OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $", {c.Key} = {Numbers.Level(c.Value)}"));
            yield return ("detector", plan.Detectors[i].Label + identity + loop + constants);
        }

        yield return ("runs", results.Rows.Count == plan.RunCount
            ? Numbers.Whole(plan.RunCount)
            : $"{Numbers.Whole(results.Rows.Count)} of {Numbers.Whole(plan.RunCount)} that the points allow");
        yield return ("scored", $"{Numbers.Short(Math.Round(results.Rows.Sum(r => r.ScoredNs / 1e9) / 3600, 3))} h of signal, without lead-ins and last seconds");
        yield return ("generator version", Numbers.Whole(Scenario.GeneratorVersion));
        if (options.Identity.Length > 0)
        {
            yield return ("study identity", options.Identity);
        }
    }

    /// <summary>What came out, a sentence for each detector.</summary>
    internal static IEnumerable<string> InShort(PooledFigures pooled, IReadOnlyList<FailurePoint> points)
    {
        StudyPlan plan = pooled.Results.Plan;
        for (int detector = 0; detector < plan.Detectors.Count; detector++)
        {
            int index = detector;
            string label = plan.Detectors[detector].Label;
            int made = plan.Points.Count(p => pooled.RowsAt(p.Index, index).Count > 0);
            if (pooled.Requirements.Count > 0)
            {
                int met = plan.Points.Count(p => pooled.RowsAt(p.Index, index).Count > 0 && Enumerable.Range(0, pooled.Requirements.Count).All(r => pooled.At(r, p.Index, index).IsMet));
                yield return FormattableString.Invariant($"{label}: every requirement is met at {met} of {made} points.");
            }

            foreach (FailurePoint point in points.Where(p => p.Detector == index && p.State == FailurePointState.Found).Take(4))
            {
                int? decimals = ToldDigits.Decimals(point.Level!.Value, point.Interval);
                string interval = point.Interval is Interval i ? $", 95 % interval {Numbers.Told(i.Low, decimals)} to {Numbers.Told(i.High, decimals)}" : "";
                string held = point.Held.Count == 0 ? "" : $" at {RequirementWords.Held(point.Held)}";
                yield return $"{label}: failure point for {RequirementWords.Bare(point.Requirement)} (required {RequirementWords.Limit(point.Requirement)}): {RequirementWords.At(point.Factor, Numbers.Told(point.Level, decimals))}{interval}{held}.";
            }

            long failed = pooled.Results.CountsOf(detector).Unanswered;
            if (failed > 0)
            {
                yield return FormattableString.Invariant($"{label}: did not answer properly in {failed} runs, see the verdicts.");
            }
        }
    }

    private static string Varied(StudyPlan plan, PointLayout layout, Factor factor)
    {
        const int MostNamed = 20;
        IReadOnlyList<object> levels = layout.Levels[plan.Factors.ToList().IndexOf(factor)];
        string values = levels.Count <= MostNamed
            ? string.Join(", ", levels.Select(Numbers.Level))
            : FormattableString.Invariant($"{levels.Count} values from {Numbers.Level(levels[0])} to {Numbers.Level(levels[^1])}");
        return $"{RequirementWords.Key(factor.Key)}: {values}{(factor.IsInRatios ? ", in equal ratios" : "")}";
    }

    private static string Seeds(IReadOnlyList<ulong> seeds)
    {
        bool isRow = seeds.Zip(seeds.Skip(1)).All(p => p.Second == p.First + 1);
        return isRow && seeds.Count > 1
            ? $"{Numbers.Unsigned(seeds[0])} to {Numbers.Unsigned(seeds[^1])} ({Numbers.Whole(seeds.Count)})"
            : string.Join(", ", seeds.Take(20).Select(Numbers.Unsigned)) + (seeds.Count > 20 ? $" and {Numbers.Whole(seeds.Count - 20)} more" : "");
    }

    private static string Layout(LayoutKind kind) => kind switch
    {
        LayoutKind.OnePoint => "nothing varies",
        LayoutKind.Grid => "every combination of the values",
        LayoutKind.EachAlone => "each key alone, the others at their base values",
        _ => "spread over the ranges",
    };
}
