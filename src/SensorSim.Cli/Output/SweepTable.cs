// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Cli.Output;

/// <summary>Prints what a study came to as short tables.</summary>
internal static class SweepTable
{
    private const int MostRows = 200;

    /// <summary>Prints the tables.</summary>
    /// <param name="text">Where to.</param>
    /// <param name="results">What.</param>
    public static void Print(TextWriter text, SweepResults results)
    {
        StudyPlan plan = results.Plan;
        text.WriteLine(plan.Title);
        string persons = plan.SubjectSeeds.Count == 0 ? "" : $", {Plural.Of(plan.SubjectSeeds.Count, "person")}";
        text.WriteLine(Invariant(
            $"{plan.Scenario.Title}: {results.Rows.Rows.Count} of {Plural.Of(plan.RunCount, "run")} of {plan.Scenario.DurationS:0.###} s; {Plural.Of(plan.Points.Count, "point")}, {Plural.Of(plan.Seeds.Count, "seed")}{persons}, {Plural.Of(plan.Detectors.Count, "detector")}"));
        Tuned(text, results);
        text.WriteLine();
        Figures(text, results);
        FailurePoints(text, results);
        foreach (var without in results.WithoutRows)
        {
            text.WriteLine($"{without.Key.Key}: no run has such a row, so nothing is known of it");
        }

        Unanswered(text, results);
        if (!results.LooksForFailurePoints && plan.Requirements.Count > 0)
        {
            text.WriteLine(results.IsMet ? "requirements met" : "requirements NOT met");
        }
    }

    private static void Tuned(TextWriter text, SweepResults results)
    {
        if (results.Tuned is not var (settings, chosen))
        {
            return;
        }

        foreach (TunedConstants c in chosen)
        {
            string constants = string.Join(", ", c.Constants.Select(v => $"{v.Name} = {Number(v.Value)}"));
            text.WriteLine(Invariant(
                $"{Label(results, c.Detector)}: {constants} chosen on {Plural.Of(settings.Seeds.Count, "other seed")}, {results.Plan.Requirements[0].Definition.Key.Key} {Number(c.Figure)} there"));
        }
    }

    private static void Figures(TextWriter text, SweepResults results)
    {
        if (results.Figures.Count == 0)
        {
            text.WriteLine("no requirement is set, so nothing is judged; the figures of each run are in runs.csv");
            return;
        }

        if (results.Figures.Count > MostRows)
        {
            PlainTables.Print(
                text,
                ["requirement", "of", "limit>", "detector", "points>", "met at>"],
                results.Figures.GroupBy(f => (f.Requirement, f.Detector)).Select(g => new[]
                {
                    g.Key.Requirement.Definition.Key.Key, g.Key.Requirement.Subject, Number(g.Key.Requirement.Limit), Label(results, g.Key.Detector), Whole(g.Count()), Whole(g.Count(f => f.IsMet)),
                }));
            text.WriteLine();
            text.WriteLine("each point is in summary.json");
            text.WriteLine();
            return;
        }

        PlainTables.Print(
            text,
            ["requirement", "of", "limit>", "detector", .. results.Plan.Factors.Select(f => f.Key.Name + ">"), "runs>", "events>", "reached>", "met"],
            results.Figures.Select(f => (string[])
            [
                f.Requirement.Definition.Key.Key,
                f.Requirement.Subject,
                Number(f.Requirement.Limit),
                Label(results, f.Detector),
                .. results.Plan.Points[f.Point].Values.Select(Value),
                Whole(f.Pool.RunCount),
                Whole(f.EventCount),
                f.ToldFigure,
                f.IsMet ? "yes" : "NO",
            ]));
        text.WriteLine();
    }

    private static void FailurePoints(TextWriter text, SweepResults results)
    {
        if (results.FailurePoints.Count == 0)
        {
            return;
        }

        PlainTables.Print(
            text,
            ["no.>", "failure point of", "of", "limit>", "detector", "key", "held", "level>", "95 % interval", "unit"],
            results.FailurePoints.Select((p, index) => new[]
            {
                Whole(index + 1),
                p.Requirement.Definition.Key.Key,
                p.Requirement.Subject,
                Number(p.Requirement.Limit),
                Label(results, p.Detector),
                p.Factor.Key.Name,
                FailurePointTable.HeldText(p) is { Length: > 0 } held ? held : "-",
                p.State == FailurePointState.Found ? End(p.Level!.Value, DecimalsOf(p)) : Word(p.State),
                p.Interval is { } i ? $"{End(i.Low, DecimalsOf(p))} to {End(i.High, DecimalsOf(p))}" : "-",
                p.Factor.Key.Unit,
            }));
        text.WriteLine();
        Sentences(text, results, p => [p.Definition]);
        Sentences(text, results, p => p.Warnings);
    }

    // First what each is, in their order, then what is to be borne in mind, with all that it holds for.
    private static void Sentences(TextWriter text, SweepResults results, Func<FailurePoint, IReadOnlyList<string>> of)
    {
        var sentences = results.FailurePoints
            .SelectMany((p, index) => of(p).Where(s => s.Length > 0).Select(s => (Number: index + 1, Sentence: s)))
            .GroupBy(s => s.Sentence, s => s.Number);
        foreach (IGrouping<string, int> group in sentences)
        {
            text.WriteLine($"  {Numbers([.. group])}: {group.Key}");
        }
    }

    /// <summary>Numbers of rows in few words, neighbours drawn together: <c>no. 1 to 4, 6</c>.</summary>
    internal static string Numbers(IReadOnlyList<int> numbers)
    {
        var parts = new List<string>();
        for (int from = 0, to; from < numbers.Count; from = to + 1)
        {
            to = from;
            while (to + 1 < numbers.Count && numbers[to + 1] == numbers[to] + 1)
            {
                to++;
            }

            parts.AddRange(to - from < 2 ? numbers.Skip(from).Take(to - from + 1).Select(n => Whole(n)) : [$"{Whole(numbers[from])} to {Whole(numbers[to])}"]);
        }

        return $"no. {string.Join(", ", parts)}";
    }

    private static void Unanswered(TextWriter text, SweepResults results)
    {
        var failed = results.Rows.Rows.Where(r => r.Verdict != Verdict.Answered)
            .GroupBy(r => (results.Plan.KeyOf(r.Run).Detector, r.Verdict)).OrderBy(g => g.Key);
        foreach (var group in failed)
        {
            RunRow first = group.First();
            text.WriteLine(Invariant(
                $"{Label(results, group.Key.Detector)} {SummaryJson.Word(group.Key.Verdict)} in {Plural.Of(group.Count(), "run")}, first in run {first.Run} (seed {results.Plan.Seeds[results.Plan.KeyOf(first.Run).Seed]}): {first.VerdictReason}"));
        }
    }

    private static string Word(FailurePointState state) => state switch
    {
        FailurePointState.MetEverywhere => "met everywhere",
        FailurePointState.MetNowhere => "met nowhere",
        _ => "no curve",
    };

    private static int? DecimalsOf(FailurePoint point) => point.Level is double level ? ToldDigits.Decimals(level, point.Interval) : null;

    private static string End(double value, int? decimals) =>
        double.IsNegativeInfinity(value) ? "below all" : double.IsPositiveInfinity(value) ? "above all" : ToldDigits.Text(value, decimals);

    private static string Label(SweepResults results, int detector) => results.Plan.Detectors[detector].Label;

    private static string Value(object value) => value is double number ? Number(number) : (string)value;

    private static string Number(double? value) => PlainTables.Fixed(value, "0.#####");

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
