// SPDX-License-Identifier: MIT
using SensorSim.Reports.Html;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.WorstCases;

namespace SensorSim.Reports.StudyReports;

/// <summary>Tables of verdicts, worst cases and agreement.</summary>
internal static class OtherTables
{
    /// <summary>How often each detector answered and how often it failed to.</summary>
    internal static Table Verdicts(StudyResults results)
    {
        var table = new Table("verdicts", "How the detectors behaved", [
            new Column("detector", "detector"),
            .. Enum.GetValues<Verdict>().Select(v => new Column(SummaryJson.Word(v) + "_runs", SummaryJson.Word(v), true)),
            new Column("first_failed_run", "first run that failed", true),
            new Column("first_reason", "what happened in it"),
        ]);
        for (int detector = 0; detector < results.Plan.Detectors.Count; detector++)
        {
            int index = detector;
            RunRow[] rows = [.. results.Rows.Where(r => results.Plan.KeyOf(r.Run).Detector == index)];
            RunRow? failed = rows.FirstOrDefault(r => r.Verdict != Verdict.Answered);
            table.Add([
                new Cell(results.Plan.Detectors[detector].Label),
                .. Enum.GetValues<Verdict>().Select(v => new Cell(Numbers.Whole(rows.Count(r => r.Verdict == v)))),
                failed is null ? new Cell(Numbers.None, "") : new Cell(Numbers.Whole(failed.Run)),
                new Cell(failed?.VerdictReason ?? ""),
            ]);
        }

        return table;
    }

    /// <summary>The worst runs with everything that is needed to make them again.</summary>
    internal static Table WorstCases(StudyPlan plan, IReadOnlyList<WorstCase> cases)
    {
        var table = new Table("worst_cases", cases.Any(c => c.IsPointMet) ? "Weakest runs of points that meet the requirement" : "Runs that show where detectors begin to fall short", [
            new Column("run", "run", true),
            new Column("detector", "detector"),
            new Column("requirement", "requirement"),
            new Column("channel", "channel"),
            new Column("limit", "limit", true),
            new Column("figure", "figure", true),
            new Column("seed", "seed", true),
            new Column("subject_seed", "subject seed", true),
            .. plan.Factors.Select(f => new Column(f.Key.Name, RequirementWords.Key(f.Key), f.IsNumber)),
            new Column("verdict", "verdict"),
            new Column("moment_s", "shown around (s)", true),
            new Column("what", "what happens there"),
        ]);
        foreach (WorstCase worst in cases)
        {
            string subject = plan.SubjectSeeds.Count == 0 ? "" : Numbers.Unsigned(plan.SubjectSeeds[worst.Key.Subject]);
            table.Add([
                new Cell(Numbers.Whole(worst.Run)),
                new Cell(plan.Detectors[worst.Key.Detector].Label),
                new Cell(worst.Requirement.Definition.Key.Key),
                new Cell(worst.Requirement.Channel.Text()),
                Number(worst.Requirement.Limit),
                Number(worst.Figure),
                new Cell(Numbers.Unsigned(plan.Seeds[worst.Key.Seed])),
                new Cell(subject.Length == 0 ? Numbers.None : subject, subject),
                .. plan.Points[worst.Key.Point].Values.Select(v => new Cell(Numbers.Level(v), Numbers.ExactLevel(v))),
                new Cell(worst.VerdictReason.Length == 0 ? SummaryJson.Word(worst.Verdict) : $"{SummaryJson.Word(worst.Verdict)}: {worst.VerdictReason}", SummaryJson.Word(worst.Verdict)),
                Number(worst.MomentS),
                new Cell(worst.What),
            ]);
        }

        return table;
    }

    /// <summary>Bias and limits of agreement.</summary>
    internal static Table Agreement(IReadOnlyList<(AgreementData Data, AgreementLimits? Limits)> data)
    {
        var table = new Table("agreement", "Agreement of readings with truth", [
            new Column("reading", "reading"),
            new Column("unit", "unit"),
            new Column("pairs", "pairs", true),
            new Column("subjects", "persons or records", true),
            new Column("bias", "bias", true),
            new Column("bias_low", "95 % from", true),
            new Column("bias_high", "to", true),
            new Column("lower_limit", "lower limit", true),
            new Column("lower_limit_low", "95 % from", true),
            new Column("lower_limit_high", "to", true),
            new Column("upper_limit", "upper limit", true),
            new Column("upper_limit_low", "95 % from", true),
            new Column("upper_limit_high", "to", true),
        ]);
        foreach ((AgreementData of, AgreementLimits? limits) in data)
        {
            AgreementPair[] pairs = [.. of.Pairs.Where(p => double.IsFinite(p.Truth) && double.IsFinite(p.Estimate))];
            table.Add([
                new Cell(of.Runs.Length == 0 ? of.Title : $"{of.Title} ({of.Runs})"),
                new Cell(of.Unit),
                new Cell(Numbers.Whole(pairs.Length)),
                new Cell(Numbers.Whole(pairs.Select(p => p.Subject).Distinct().Count())),
                Number(limits?.Bias),
                Number(limits?.BiasInterval?.Low),
                Number(limits?.BiasInterval?.High),
                Number(limits?.Low),
                Number(limits?.LowInterval?.Low),
                Number(limits?.LowInterval?.High),
                Number(limits?.High),
                Number(limits?.HighInterval?.Low),
                Number(limits?.HighInterval?.High),
            ]);
        }

        return table;
    }

    private static Cell Number(double? value) => new(Numbers.Short(value), Numbers.Exact(value));
}
