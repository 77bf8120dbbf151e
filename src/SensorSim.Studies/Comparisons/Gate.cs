// SPDX-License-Identifier: MIT
using SensorSim.Files.JUnit;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

namespace SensorSim.Studies.Comparisons;

/// <summary>Judges for a build server whether the second of a comparison got worse than the first.</summary>
/// <remarks>
/// Many figures are compared, and each may look worse by chance. So only figures pooled over all points and failure points are judged, and the 5 % of
/// false alarms, both sides together, are shared out among them (Bonferroni). Points count only where every one of them is required: in a study that looks for no failure point.
/// </remarks>
public sealed class Gate
{
    private readonly Comparison _comparison;
    private readonly IReadOnlyDictionary<string, double> _margins;

    /// <summary>Judges.</summary>
    /// <param name="comparison">The comparison; its first is what was before.</param>
    /// <param name="margins">
    /// How much worse a figure may get, by the key of its requirement [unit of the figure], or a failure point, by the varied key [unit of the key]; 0 where nothing is said.
    /// </param>
    public Gate(Comparison comparison, IReadOnlyDictionary<string, double> margins)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(margins);
        _comparison = comparison;
        _margins = margins;
        Cases = [Answers(), .. Overall(), .. FailurePoints(), .. Points()];
    }

    /// <summary>Every judgement.</summary>
    public IReadOnlyList<JUnitCase> Cases { get; }

    /// <summary>A sentence for each thing that got worse.</summary>
    public IReadOnlyList<string> Worse => [.. Cases.Where(c => c.Outcome == JUnitOutcome.Failed).Select(c => $"{c.Name}: {c.Message}")];

    /// <summary>Keys for which a margin may be given.</summary>
    /// <param name="comparison">The comparison.</param>
    public static IReadOnlyList<string> MarginKeys(Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        return
        [
            .. comparison.Figures.Where(comparison.IsGated).Select(f => f.Definition.Key.Key)
                .Concat(comparison.FailurePoints.Select(f => f.First.Factor.Key.Name)).Distinct(StringComparer.Ordinal),
        ];
    }

    /// <summary>Largest probability of the swap test at which a pooled figure counts as worse.</summary>
    private double MostP => Comparison.GateShare / _comparison.TestCount;

    private StudyPlan Plan => _comparison.Pair.Results.Plan;

    private double MarginOf(string key) => _margins.GetValueOrDefault(key, 0);

    private JUnitCase Answers()
    {
        var lost = _comparison.NoLongerAnswered;
        string text = FormattableString.Invariant($"{Plural.Of(lost.Count, "run")} {(lost.Count == 1 ? "is" : "are")} no longer answered, {_comparison.NewlyAnswered.Count} newly.");
        return lost.Count == 0
            ? new JUnitCase("answers", "detector answers", JUnitOutcome.Passed, "", text)
            : new JUnitCase(
                "answers",
                "detector answers",
                JUnitOutcome.Failed,
                FormattableString.Invariant($"{Plural.Of(lost.Count, "run")} that {(lost.Count == 1 ? "was" : "were")} answered before no longer {(lost.Count == 1 ? "is" : "are")}; the first is run {_comparison.Pair.Sides[ComparedPair.Second].OwnRun(lost[0].Run)}: {lost[0].VerdictReason}"),
                text);
    }

    private IEnumerable<JUnitCase> Overall() => _comparison.Overall.Where(d => _comparison.IsGated(d.Figure)).Select(d =>
    {
        string name = $"{d.Figure.Words}, {ComparisonTexts.Place(Plan, null)}";
        string sentence = ComparisonTexts.Sentence(d);
        string group = $"pooled.{d.Figure.Definition.Key.Key}";
        if (d.Second is null && d.First is not null)
        {
            return new JUnitCase(group, name, JUnitOutcome.Failed, $"undefined after {ComparisonTexts.Number(d.First)}: there is nothing left to take it from.");
        }

        if (d.Difference is not double difference)
        {
            return new JUnitCase(group, name, JUnitOutcome.Skipped, "the first's figure is undefined.");
        }

        if (d.Interval is null)
        {
            return new JUnitCase(group, name, JUnitOutcome.Skipped, $"{sentence}: one seed and one person show no difference.");
        }

        double margin = MarginOf(d.Figure.Definition.Key.Key);
        bool isWorse = Comparison.VerdictOf(d.Figure, d.Interval, d.SwapP, MostP) == DifferenceVerdict.Worse && -d.Figure.Gain(difference) > margin;
        return isWorse
            ? new JUnitCase(group, name, JUnitOutcome.Failed, $"{sentence}; worse by more than the margin {ComparisonTexts.Number(margin)}, and p is at most {ComparisonTexts.Number(MostP)}.")
            : new JUnitCase(group, name, JUnitOutcome.Passed, "", sentence);
    });

    private IEnumerable<JUnitCase> FailurePoints() => _comparison.FailurePoints.Select(f =>
    {
        ComparedFigure figure = new(f.First.Requirement.Definition, f.First.Requirement.Channel, f.First.Requirement.Limit);
        string held = f.First.Held.Count == 0 ? "" : $" at {ComparisonTexts.Held(f.First.Held)}";
        string name = $"{figure.Words}, failure point in {f.First.Factor.Key.Name}{held}";
        string group = $"failure_point.{f.First.Requirement.Definition.Key.Key}";
        string sentence = ComparisonTexts.Sentence(f);
        if (f.IsAllAgainstNone)
        {
            return f.Verdict == DifferenceVerdict.Worse
                ? new JUnitCase(group, name, JUnitOutcome.Failed, $"{sentence}; in every resample too.")
                : new JUnitCase(group, name, JUnitOutcome.Passed, "", sentence);
        }

        if (f.GateInterval is not Interval interval)
        {
            return new JUnitCase(group, name, JUnitOutcome.Skipped, $"{sentence}.");
        }

        // A failure point beyond the levels may lie anywhere there: no margin covers that.
        double margin = MarginOf(f.First.Factor.Key.Name);
        double by = f.Difference is double d ? Math.Abs(d) : double.PositiveInfinity;
        return f.GateVerdict == DifferenceVerdict.Worse && by > margin
            ? new JUnitCase(
                group,
                name,
                JUnitOutcome.Failed,
                $"{sentence}; worse by more than the margin {ComparisonTexts.Number(margin)}, and the {ComparisonTexts.Number(100 * (1 - MostP))} % interval {ComparisonTexts.Told(f, interval).Interval} does not reach 0.")
            : new JUnitCase(group, name, JUnitOutcome.Passed, "", sentence);
    });

    private IEnumerable<JUnitCase> Points()
    {
        bool isEachRequired = !Plan.Factors.Any(f => f.IsNumber && f.Levels.Count > 1);
        return _comparison.AtPoints.Where(d => d.Figure.Limit is not null).Select(d =>
        {
            string name = $"{d.Figure.Words}, {ComparisonTexts.Place(Plan, d.Point)}";
            string group = $"point.{d.Figure.Definition.Key.Key}";
            string sentence = ComparisonTexts.Sentence(d);
            bool isLost = d.IsFirstMet == true && d.IsSecondMet == false;
            string lost = $"the requirement ({ComparisonTexts.Number(d.Figure.Limit)}) was met and no longer is: {sentence}.";
            return isLost && isEachRequired
                ? new JUnitCase(group, name, JUnitOutcome.Failed, lost)
                : new JUnitCase(group, name, JUnitOutcome.Passed, "", isLost ? $"For information: {lost}" : sentence);
        });
    }
}
