// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>
/// Spends the runs of a study where they tell most about its failure points: first a few seeds at levels that are halved towards the crossing, then more
/// seeds at the levels on either side of it, until the interval is as narrow as asked for.
/// </summary>
/// <remarks>
/// Every level begins with the first seed, so levels share seeds (common random numbers), and every seed runs with every subject. What comes
/// next is a function of the rows of the batches before: the planner goes through its own batches from the first one, so rows in another order, rows
/// of an interrupted batch and rows that it never asked for change nothing.
/// </remarks>
public sealed class AdaptivePlanner : IRunPlanner
{
    private const int FirstSeeds = 8;

    // Intervals from fewer are narrow by chance too often to stop at one.
    private const int LeastSeeds = 50;

    // Intervals on the way need fewer resamples than the one that is reported.
    private const int MostResamples = 400;

    private readonly StudyPlan _plan;
    private readonly SearchGroup _group;
    private readonly FailurePointSettings _settings;
    private readonly long _mostRuns;
    private readonly List<IReadOnlyList<long>> _batches = [];

    // Seeds at each level (in ascending order of levels) and detector: planned by the batches so far.
    private readonly int[,] _seeds;

    /// <summary>Creates a planner.</summary>
    /// <param name="plan">The study: one key with at least two levels, all others at one value; a precision above 0.</param>
    /// <exception cref="NotSupportedException">The study varies something else, has no requirements or no precision.</exception>
    public AdaptivePlanner(StudyPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        IReadOnlyList<SearchGroup> groups = SearchGroup.Of(plan);
        if (groups.Count != 1 || groups[0].Points.Count != plan.Points.Count)
        {
            throw new NotSupportedException(
                $"{plan.File}: failure_point.adaptive = true looks along one key with numbers, with at least two levels; this study varies "
                + $"{(plan.Factors.Count == 0 ? "none" : string.Join(", ", plan.Factors.Select(f => $"{f.Key.Name} ({f.Levels.Count} values)")))}. Vary one key only.");
        }

        if (plan.Requirements.Count == 0)
        {
            throw new NotSupportedException($"{plan.File}: failure_point.adaptive = true needs a requirement to look for under [requirements].");
        }

        if (!(plan.FailurePoint.Precision > 0))
        {
            throw new NotSupportedException(
                $"{plan.File}: failure_point.adaptive = true needs failure_point.precision above 0: half the width of the 95 % interval, in the unit of {groups[0].Factor.Key.Name}.");
        }

        _plan = plan;
        _group = groups[0];
        _settings = plan.FailurePoint with { Resamples = Math.Min(MostResamples, plan.FailurePoint.Resamples) };
        _mostRuns = Math.Min(plan.FailurePoint.MostRuns ?? plan.RunCount, plan.RunCount);
        _seeds = new int[_group.Points.Count, plan.Detectors.Count];
    }

    /// <inheritdoc/>
    public IReadOnlyList<long> NextBatch(IReadOnlyList<RunRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        var byRun = rows.ToDictionary(r => r.Run);
        var own = new List<RunRow>();
        Array.Clear(_seeds);
        for (int batch = 0; ; batch++)
        {
            // Batches before depend on rows that do not change, so they are kept instead of planned again.
            if (batch == _batches.Count)
            {
                _batches.Add(PlanBatch(own));
            }

            IReadOnlyList<long> runs = _batches[batch];
            long[] missing = [.. runs.Where(r => !byRun.ContainsKey(r))];
            if (runs.Count == 0 || missing.Length > 0)
            {
                _batches.RemoveRange(batch + 1, _batches.Count - batch - 1);
                if (runs.Count == 0)
                {
                    _batches.RemoveAt(batch);
                }

                return missing;
            }

            own.AddRange(runs.Select(r => byRun[r]));
            foreach (long run in runs)
            {
                RunKey key = _plan.KeyOf(run);
                int level = LevelOf(key.Point);
                _seeds[level, key.Detector] = Math.Max(_seeds[level, key.Detector], key.Seed + 1);
            }
        }
    }

    private int LevelOf(int point)
    {
        int level = 0;
        while (_group.Points[level].Point != point)
        {
            level++;
        }

        return level;
    }

    private List<long> PlanBatch(List<RunRow> own)
    {
        // Seeds wanted at each level and detector, at least as many as there are.
        var wanted = (int[,])_seeds.Clone();
        if (own.Count == 0)
        {
            int last = _group.Points.Count - 1;
            for (int detector = 0; detector < _plan.Detectors.Count; detector++)
            {
                for (int quarter = 0; quarter <= 4; quarter++)
                {
                    Want(wanted, quarter * last / 4, detector, FirstSeeds);
                }
            }
        }
        else
        {
            var results = new StudyResults(_plan, own);
            foreach (RequirementOnRow requirement in results.Requirements)
            {
                for (int detector = 0; detector < _plan.Detectors.Count; detector++)
                {
                    AskFor(wanted, FailureSearch.Run(results, requirement, detector, _group, _settings), detector);
                }
            }
        }

        return RunsOf(wanted, own.Count);
    }

    private void AskFor(int[,] wanted, FailurePoint point, int detector)
    {
        if (point.State is FailurePointState.MetEverywhere or FailurePointState.MetNowhere)
        {
            AskAtTheEnd(wanted, point, detector);
            return;
        }

        if (point.State == FailurePointState.NoCurve || point.Level is not double level)
        {
            // Nothing to go by: more seeds at every level that has any, up to a limit.
            for (int i = 0; i < _group.Points.Count; i++)
            {
                if (_seeds[i, detector] is > 0 and < 8 * FirstSeeds)
                {
                    Want(wanted, i, detector, 2 * _seeds[i, detector]);
                }
            }

            return;
        }

        if (Bracket(point, level) is (int below, int above) && above - below > 1 && _seeds[(below + above) / 2, detector] == 0 && IsWide(point, below, above))
        {
            Want(wanted, (below + above) / 2, detector, FirstSeeds);
            return;
        }

        double half = HalfWidth(point);
        int most = 0;
        for (int i = 0; i < _group.Points.Count; i++)
        {
            most = Math.Max(most, _seeds[i, detector]);
        }

        if (half > _plan.FailurePoint.Precision || most < Math.Min(LeastSeeds, _plan.Seeds.Count))
        {
            AskAround(wanted, point, level, half, detector);
        }
    }

    // The levels with rows on either side of the crossing.
    private (int Below, int Above) Bracket(FailurePoint point, double level)
    {
        int below = 0;
        int above = _group.Points.Count - 1;
        foreach (LevelFigure figure in point.Levels)
        {
            int index = LevelOf(figure.Point);
            below = figure.Level <= level ? Math.Max(below, index) : below;
            above = figure.Level > level ? Math.Min(above, index) : above;
        }

        return (below, above);
    }

    // Halving goes on while levels stand further apart than the precision asked for.
    private bool IsWide(FailurePoint point, int below, int above) =>
        _group.Points[above].Level - _group.Points[below].Level > 2 * Math.Max(_plan.FailurePoint.Precision, Math.Min(HalfWidth(point), 1e300));

    // Levels at the ends of the interval: far enough apart to see the slope, near enough to need no model.
    private void AskAround(int[,] wanted, FailurePoint point, double level, double half, int detector)
    {
        int last = _group.Points.Count - 1;
        int middle = 0;
        while (middle < last && _group.Points[middle + 1].Level <= level)
        {
            middle++;
        }

        int step = Math.Max(1, last / 8);
        Interval interval = point.Interval ?? new Interval(double.NegativeInfinity, double.PositiveInfinity);
        int left = Nearest(double.IsFinite(interval.Low) ? interval.Low : _group.Points[Math.Max(0, middle - step)].Level, detector, -1);
        int right = Nearest(double.IsFinite(interval.High) ? interval.High : _group.Points[Math.Min(last, middle + step)].Level, detector, left);
        if (left < 0)
        {
            return;
        }

        right = right < 0 ? left : right;
        int near = 0;
        for (int i = Math.Min(left, right); i <= Math.Max(left, right); i++)
        {
            near += _seeds[i, detector];
        }

        // Width falls with the root of the seeds: most of what is missing, at most what is there already.
        double ratio = half / _plan.FailurePoint.Precision;
        int more = Math.Max(FirstSeeds / 2, (int)Math.Ceiling(0.35 * near * Math.Clamp((ratio * ratio) - 1, 0, 2)));
        Want(wanted, left, detector, _seeds[left, detector] + more);
        Want(wanted, right, detector, _seeds[right, detector] + more);
    }

    // The level nearest to a place that still has seeds to spend, other than one; −1 when none has.
    private int Nearest(double place, int detector, int other)
    {
        int best = -1;
        double least = double.PositiveInfinity;
        for (int level = 0; level < _group.Points.Count; level++)
        {
            double distance = Math.Abs(Place(_group.Points[level].Level) - Place(place));
            if (level != other && _seeds[level, detector] < _plan.Seeds.Count && distance < least)
            {
                (best, least) = (level, distance);
            }
        }

        return best;
    }

    private double Place(double level) => _group.Factor.IsInRatios && level > 0 ? Math.Log(level) : level;

    // No crossing among the levels: sure of it after some more seeds at the end where it would be.
    private void AskAtTheEnd(int[,] wanted, FailurePoint point, int detector)
    {
        IReadOnlyList<LevelFigure> levels = point.Levels;
        double Quality(LevelFigure l) => l.Figure is double f ? (point.Requirement.IsLeast || _settings.PassFraction is not null ? f : -Math.Abs(f)) : double.NegativeInfinity;
        bool isWorstFirst = Quality(levels[0]) < Quality(levels[^1]);
        bool isFirst = isWorstFirst == (point.State == FailurePointState.MetEverywhere);
        int end = isFirst ? 0 : _group.Points.Count - 1;
        if (_seeds[end, detector] < 4 * FirstSeeds)
        {
            Want(wanted, end, detector, 2 * _seeds[end, detector]);
        }
    }

    private void Want(int[,] wanted, int level, int detector, int seeds) =>
        wanted[level, detector] = Math.Max(wanted[level, detector], Math.Min(seeds, _plan.Seeds.Count));

    private List<long> RunsOf(int[,] wanted, int spent)
    {
        var runs = new List<long>();

        // Whole seeds across levels first, so that a limit of runs cuts the last seeds and not the last levels.
        for (int seed = 0; seed < _plan.Seeds.Count; seed++)
        {
            for (int level = 0; level < _group.Points.Count; level++)
            {
                for (int detector = 0; detector < _plan.Detectors.Count; detector++)
                {
                    if (seed >= _seeds[level, detector] && seed < wanted[level, detector] && spent + runs.Count + _plan.SubjectCount <= _mostRuns)
                    {
                        for (int subject = 0; subject < _plan.SubjectCount; subject++)
                        {
                            runs.Add(_plan.NumberOf(new RunKey(_group.Points[level].Point, seed, subject, detector)));
                        }
                    }
                }
            }
        }

        runs.Sort();
        return runs;
    }

    private static double HalfWidth(FailurePoint point) => point.Interval is { } i ? (i.High - i.Low) / 2 : double.PositiveInfinity;
}
