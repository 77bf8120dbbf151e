// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.WorstCases;

/// <summary>Chooses runs that show where a detector begins to fall short: at the harshest point everything fails, and a picture teaches nothing.</summary>
internal static class WorstRuns
{
    /// <summary>The runs, each at most once: requirements take turns, of each requirement the detectors; and whether their points meet the requirement as a whole.</summary>
    /// <remarks>
    /// A detector's turn gives first a run in which it did not answer, once in all; then the worst run of the mildest point that fails,
    /// of the next mildest, and so on, then the second worst of each. Runs of points that meet the requirement as a whole show no failure: they
    /// are chosen only where no point fails any requirement. A run without anything that the figure could be taken from, such as one without a
    /// single reading, shows nothing: it is chosen only where no failing run has any.
    /// </remarks>
    internal static IReadOnlyList<(RequirementOnRow Requirement, RunRow Row, bool IsPointMet)> Of(StudyResults results, int most)
    {
        List<(RequirementOnRow Requirement, RunRow Row)> failing = InTurns(results, most, ofMetPoints: false);
        return failing.Count > 0
            ? [.. failing.Select(f => (f.Requirement, f.Row, false))]
            : [.. InTurns(results, most, ofMetPoints: true).Select(f => (f.Requirement, f.Row, true))];
    }

    private static List<(RequirementOnRow Requirement, RunRow Row)> InTurns(StudyResults results, int most, bool ofMetPoints)
    {
        int detectors = results.Plan.Detectors.Count;
        var unanswered = new bool[detectors];
        (RequirementOnRow Requirement, int Detector, Queue<RunRow> Rows)[] turns =
        [
            .. results.Requirements.SelectMany(r => Enumerable.Range(0, detectors).Select(d => (r, d, new Queue<RunRow>(Rows(results, r, d, ofMetPoints))))),
        ];
        var chosen = new List<(RequirementOnRow Requirement, RunRow Row)>();
        var taken = new HashSet<long>();
        bool isMore = true;
        while (isMore && chosen.Count < most)
        {
            isMore = false;
            foreach ((RequirementOnRow requirement, int detector, Queue<RunRow> rows) in turns)
            {
                if (chosen.Count < most && Next(rows, detector) is RunRow row)
                {
                    chosen.Add((requirement, row));
                    isMore = true;
                }
            }
        }

        return chosen;

        RunRow? Next(Queue<RunRow> rows, int detector)
        {
            while (rows.TryDequeue(out RunRow? row))
            {
                bool isUnanswered = row.Verdict != Verdict.Answered;
                if ((!isUnanswered || !unanswered[detector]) && taken.Add(row.Run))
                {
                    unanswered[detector] |= isUnanswered;
                    return row;
                }
            }

            return null;
        }
    }

    private static IEnumerable<RunRow> Rows(StudyResults results, RequirementOnRow requirement, int detector, bool ofMetPoints)
    {
        Point[] points = [.. Enumerable.Range(0, results.Plan.Points.Count).Select(p => PointOf(results, requirement, p, detector)).OfType<Point>()];

        // The mildest of all points for the run that did not answer: that is how little it takes.
        RunRow? silent = points.OrderByDescending(p => p.Margin).Select(p => p.Unanswered).FirstOrDefault(r => r is not null);

        // Points that fail as a whole, the mildest first; of those in which a run or two fail, the nearest to failing first.
        Point[] failing = ofMetPoints ? [.. points.Where(p => p.IsMet).OrderBy(p => p.Margin)] : [.. points.Where(p => !p.IsMet).OrderByDescending(p => p.Margin)];
        if (failing.Any(p => p.Failing.Any(r => ShowsSomething(requirement, r))))
        {
            failing = [.. failing.Select(p => p with { Failing = [.. p.Failing.Where(r => ShowsSomething(requirement, r))] })];
        }

        int rounds = failing.Length == 0 ? 0 : failing.Max(p => p.Failing.Count);
        return (silent is null ? [] : new[] { silent })
            .Concat(Enumerable.Range(0, rounds).SelectMany(n => failing.Where(p => n < p.Failing.Count).Select(p => p.Failing[n])));
    }

    // Equals are kept in order of their numbers: sorting is stable.
    private static Point? PointOf(StudyResults results, RequirementOnRow requirement, int point, int detector)
    {
        RunRow[] rows = [.. results.At(point, detector)];
        if (rows.Length == 0)
        {
            return null;
        }

        var pool = new RunPool(requirement.Definition, requirement.Channel);
        foreach (RunRow row in rows)
        {
            pool.Add(row);
        }

        return new Point(
            IsMet(results.Plan.FailurePoint.PassFraction, requirement, pool, rows),
            Margin(requirement, pool.Figure),
            [.. rows.Where(r => r.Verdict == Verdict.Answered && !requirement.IsMetBy(r)).OrderBy(r => Margin(requirement, requirement.FigureOf(r))).ThenBy(r => r.Run)],
            rows.FirstOrDefault(r => r.Verdict != Verdict.Answered));
    }

    // As the study asks: the pooled figure, or the share of runs.
    private static bool IsMet(double? passFraction, RequirementOnRow requirement, RunPool pool, RunRow[] rows) =>
        passFraction is double share ? rows.Count(requirement.IsMetBy) >= share * rows.Length : requirement.IsMetBy(pool.Figure);

    // Where the time of the first reading is asked for, none at all is what there is to be seen.
    private static bool ShowsSomething(RequirementOnRow requirement, RunRow row) =>
        requirement.Definition.Figure == RequiredFigure.ReadingFirst || requirement.FigureOf(row) is not null;

    private static double Margin(RequirementOnRow requirement, double? figure) => figure is double f
        ? requirement.IsLeast ? f - requirement.Limit : requirement.Limit - Math.Abs(f)
        : double.NegativeInfinity;

    /// <summary>A detector at a point: whether it meets the requirement as a whole, how far its pooled figure is from the limit, and its runs that fall short, the worst first.</summary>
    private sealed record Point(bool IsMet, double Margin, IReadOnlyList<RunRow> Failing, RunRow? Unanswered);
}
