// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Comparisons;

/// <summary>Two detectors compared run by run on the same streams.</summary>
public sealed class Comparison
{
    private const int Resamples = 2000;
    private const int DrawsOverall = 9999;
    private const int DrawsAtPoint = 1999;
    private const int MostRunsPerFigure = 5;

    /// <summary>Share of false alarms of the gate that is allowed altogether, both sides.</summary>
    public const double GateShare = 0.05;

    private Comparison(ComparedPair pair, IReadOnlyList<ComparedFigure> figures)
    {
        Pair = pair;
        Figures = figures;
        StudyResults results = pair.Results;
        IReadOnlyList<SearchGroup> groups = SearchGroup.Of(results.Plan);
        (RequirementOnRow Requirement, SearchGroup Group)[] searches = [.. from r in results.Requirements from g in groups select (r, g)];
        TestCount = Math.Max(1, figures.Count(IsGated) + searches.Length);
        int[] points = [.. results.Plan.Points.Select(p => p.Index).Where(p => results.At(p, ComparedPair.First).Any())];
        (ComparedFigure Figure, int? Point)[] places =
        [
            .. figures.Select(f => (f, (int?)null)),
            .. from f in figures from p in points select (f, (int?)p),
        ];
        var differences = new PairedDifference[places.Length];
        Parallel.For(0, places.Length, i => differences[i] = DifferenceOf(places[i].Figure, places[i].Point, points));
        Overall = [.. differences.Where(d => d.Point is null)];
        AtPoints = [.. differences.Where(d => d.Point is not null)];
        var failures = new FailureDifference[searches.Length];
        Parallel.For(0, searches.Length, i => failures[i] = FailureDifference.Of(results, searches[i].Requirement, searches[i].Group, 1 - (GateShare / TestCount)));
        FailurePoints = failures;
        Runs = [.. figures.SelectMany(DifferingRuns)];
    }

    /// <summary>The two.</summary>
    public ComparedPair Pair { get; }

    /// <summary>What they are compared in.</summary>
    public IReadOnlyList<ComparedFigure> Figures { get; }

    /// <summary>Differences pooled over all points, one for each figure.</summary>
    public IReadOnlyList<PairedDifference> Overall { get; }

    /// <summary>Differences at each point that has runs, figure by figure.</summary>
    public IReadOnlyList<PairedDifference> AtPoints { get; }

    /// <summary>Failure points of both.</summary>
    public IReadOnlyList<FailureDifference> FailurePoints { get; }

    /// <summary>For each figure the runs in which the two differ most, at most five.</summary>
    public IReadOnlyList<DifferingRun> Runs { get; }

    /// <summary>Differences that the gate judges: pooled figures that are required (all, when nothing is) and failure points.</summary>
    public int TestCount { get; }

    /// <summary>Runs in which the first answered and the second did not.</summary>
    public IReadOnlyList<RunRow> NoLongerAnswered => [.. UnansweredOnlyBy(ComparedPair.Second)];

    /// <summary>Runs in which the second answered and the first did not.</summary>
    public IReadOnlyList<RunRow> NewlyAnswered => [.. UnansweredOnlyBy(ComparedPair.First)];

    /// <summary>Compares.</summary>
    /// <param name="pair">The two.</param>
    public static Comparison Of(ComparedPair pair)
    {
        ArgumentNullException.ThrowIfNull(pair);
        return new Comparison(pair, ComparedFigure.Of(pair.Results));
    }

    /// <summary>Whether the gate judges a figure.</summary>
    /// <param name="figure">The figure.</param>
    public bool IsGated(ComparedFigure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return figure.Limit is not null || Figures.All(f => f.Limit is null);
    }

    private IEnumerable<RunRow> UnansweredOnlyBy(int detector) => Pairs()
        .Where(p => p.First.Verdict == Verdict.Answered != (p.Second.Verdict == Verdict.Answered))
        .Select(p => detector == ComparedPair.First ? p.First : p.Second)
        .Where(r => r.Verdict != Verdict.Answered);

    private IEnumerable<(RunRow First, RunRow Second)> Pairs()
    {
        foreach (RunRow row in Pair.Results.Rows)
        {
            RunKey key = Pair.Results.Plan.KeyOf(row.Run);
            if (key.Detector == ComparedPair.First)
            {
                yield return (row, Pair.Results.Find(key with { Detector = ComparedPair.Second })!);
            }
        }
    }

    private PairedDifference DifferenceOf(ComparedFigure figure, int? point, int[] points)
    {
        var table = new PairedTable(Pair.Results, figure, point is int one ? [one] : points);
        double? first = table.Figure(ComparedPair.First);
        double? second = table.Figure(ComparedPair.Second);
        double? difference = figure.Difference(first, second);
        Interval? interval = difference is null ? null : table.IntervalOfDifference(Resamples, 0.95);
        double? swapP = difference is null ? null : table.SwapP(point is null ? DrawsOverall : DrawsAtPoint);
        return new PairedDifference
        {
            Figure = figure,
            Point = point,
            First = first,
            Second = second,
            Difference = difference,
            Interval = interval,
            SwapP = swapP,
            Verdict = VerdictOf(figure, interval, swapP, 0.05),
            RunCount = table.RunCount,
            FirstEventCount = table.EventCounts[ComparedPair.First],
            SecondEventCount = table.EventCounts[ComparedPair.Second],
            Met = figure.Limit is null ? null : MetRunsOf(figure, point),
        };
    }

    /// <summary>What interval and swap test show together.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="interval">Interval of the difference.</param>
    /// <param name="swapP">Probability of the swap test.</param>
    /// <param name="most">Largest probability at which a difference counts as shown.</param>
    internal static DifferenceVerdict VerdictOf(ComparedFigure figure, Interval? interval, double? swapP, double most)
    {
        if (interval is not Interval i || swapP is not double p)
        {
            return DifferenceVerdict.Unknown;
        }

        (double a, double b) = (figure.Gain(i.Low), figure.Gain(i.High));
        return p > most || (Math.Min(a, b) <= 0 && Math.Max(a, b) >= 0) ? DifferenceVerdict.NoDifferenceShown
            : a > 0 ? DifferenceVerdict.Better : DifferenceVerdict.Worse;
    }

    private MetRuns MetRunsOf(ComparedFigure figure, int? point)
    {
        StudyPlan plan = Pair.Results.Plan;
        long[] counts = new long[4];
        int points = 0;
        foreach (var group in Pairs().Where(p => point is null || plan.KeyOf(p.First.Run).Point == point).GroupBy(p => plan.KeyOf(p.First.Run).Point))
        {
            points++;
            foreach ((RunRow first, RunRow second) in group)
            {
                counts[(figure.OnRow.IsMetBy(first) ? 0 : 2) + (figure.OnRow.IsMetBy(second) ? 0 : 1)]++;
            }
        }

        bool areIndependent = points == 1 && (plan.SubjectCount == 1 || plan.Seeds.Count == 1);
        return new MetRuns(counts[0], counts[1], counts[2], counts[3], areIndependent);
    }

    private IEnumerable<DifferingRun> DifferingRuns(ComparedFigure figure)
    {
        StudyPlan plan = Pair.Results.Plan;
        return Pairs()
            .Select(p => (Key: plan.KeyOf(p.First.Run), p.First.Run, First: figure.OnRow.FigureOf(p.First), Second: figure.OnRow.FigureOf(p.Second)))
            .Select(p => (p.Key, p.Run, p.First, p.Second, Difference: figure.Difference(p.First, p.Second)))
            .Where(p => p.Difference is double d && d != 0)
            .OrderByDescending(p => Math.Abs(p.Difference!.Value)).ThenBy(p => p.Run)
            .Take(MostRunsPerFigure)
            .Select(p => new DifferingRun(
                figure, p.Run, p.Key.Point, plan.Seeds[p.Key.Seed], plan.SubjectSeeds.Count == 0 ? null : plan.SubjectSeeds[p.Key.Subject], p.First!.Value, p.Second!.Value, p.Difference!.Value));
    }
}
