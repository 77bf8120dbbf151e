// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The figures of one search: sums of the study and of its resamples, along an axis on which things get worse.</summary>
internal sealed class SearchData
{
    private readonly FigureColumns _columns;
    private readonly int[] _order;
    private readonly bool _isInOrder;

    /// <summary>Reads them.</summary>
    /// <param name="results">Plan and rows.</param>
    /// <param name="requirement">The requirement.</param>
    /// <param name="detector">Index of the detector.</param>
    /// <param name="group">The levels.</param>
    /// <param name="settings">What figure, how many resamples.</param>
    public SearchData(StudyResults results, RequirementOnRow requirement, int detector, SearchGroup group, FailurePointSettings settings)
    {
        _columns = new FigureColumns(requirement, settings.PassFraction);
        var table = new SumTable(results, detector, group, _columns);
        SeedCount = table.SeedCount;
        SubjectCount = table.SubjectCount;
        double[] totals = table.Totals();
        double[][] resamples = SeedCount > 1 || SubjectCount > 1 ? table.Resample(settings.Resamples, settings.ResamplingSeed) : [];
        int[] defined = [.. Enumerable.Range(0, table.Levels.Length).Where(i => !double.IsNaN(FigureOf(totals, i)))];
        UndefinedLevels = [.. Enumerable.Range(0, table.Levels.Length).Except(defined).Select(i => table.Levels[i])];
        Levels =
        [
            .. Enumerable.Range(0, table.Levels.Length).Select(i => new LevelFigure(
                table.Points[i], table.Levels[i], FigureAt(totals, i), IntervalAt(totals, resamples, i), table.RunCounts[i], table.EventCounts[i])),
        ];
        bool isLogarithm = group.Factor.IsInRatios && table.Levels.All(l => l > 0);
        Axis = new Axis(isLogarithm, IsWorseDownwards(totals, defined));
        _order = Axis.IsTurned ? [.. defined.Reverse()] : defined;
        _isInOrder = _order.Length == table.Levels.Length && !Axis.IsTurned;
        Places = [.. _order.Select(i => Axis.Place(table.Levels[i]))];
        Ordered = [.. _order.Select(i => Levels[i])];
        Totals = Turned(totals);
        Resamples = [.. resamples.Select(Turned)];
        WithoutSeed = [.. table.LeftOut(isOfSubjects: false).Select(Turned)];
        WithoutSubject = [.. table.LeftOut(isOfSubjects: true).Select(Turned)];
    }

    /// <summary>What the sums mean.</summary>
    public FigureColumns Columns => _columns;

    /// <summary>The axis.</summary>
    public Axis Axis { get; }

    /// <summary>All levels with rows, ascending.</summary>
    public IReadOnlyList<LevelFigure> Levels { get; }

    /// <summary>Levels whose figure is undefined.</summary>
    public IReadOnlyList<double> UndefinedLevels { get; }

    /// <summary>Levels with a figure, in the order of the axis.</summary>
    public IReadOnlyList<LevelFigure> Ordered { get; }

    /// <summary>Their places on the axis, ascending.</summary>
    public double[] Places { get; }

    /// <summary>Their sums.</summary>
    public double[] Totals { get; }

    /// <summary>Their sums in each resample; empty when there is only one seed and subject.</summary>
    public double[][] Resamples { get; }

    /// <summary>Their sums without each seed; empty when there is only one.</summary>
    public double[][] WithoutSeed { get; }

    /// <summary>Their sums without each subject; empty when there is only one.</summary>
    public double[][] WithoutSubject { get; }

    /// <summary>Seeds with rows.</summary>
    public int SeedCount { get; }

    /// <summary>Subjects.</summary>
    public int SubjectCount { get; }

    /// <summary>Quality (larger is better) at a place of the axis.</summary>
    /// <param name="sums">Sums in the order of the axis.</param>
    /// <param name="index">Which place.</param>
    public double QualityAt(double[] sums, int index) => _columns.Quality(FigureOf(sums, index));

    /// <summary>Whether the figures at two places of the axis differ by more than some standard errors, that of the resampled difference.</summary>
    /// <param name="better">The place that is better.</param>
    /// <param name="worse">The other one.</param>
    /// <param name="errors">Standard errors.</param>
    public bool IsBetter(int better, int worse, double errors)
    {
        double difference = QualityAt(Totals, better) - QualityAt(Totals, worse);
        return difference > 0 && Resamples.Length > 1
            && difference > errors * Spread(Resamples.Select(r => QualityAt(r, better) - QualityAt(r, worse)).Where(d => !double.IsNaN(d)));
    }

    /// <summary>Standard deviation of values; 0 with fewer than two.</summary>
    /// <param name="values">The values.</param>
    public static double Spread(IEnumerable<double> values)
    {
        double[] all = [.. values];
        if (all.Length < 2)
        {
            return 0;
        }

        double mean = all.Average();
        return Math.Sqrt(all.Sum(v => (v - mean) * (v - mean)) / (all.Length - 1));
    }

    private double FigureOf(double[] sums, int level) => _columns.Figure(sums.AsSpan(level * FigureColumns.Count, FigureColumns.Count));

    private double? FigureAt(double[] sums, int level) => FigureOf(sums, level) is double f && double.IsFinite(f) ? f : null;

    private Interval? IntervalAt(double[] totals, double[][] resamples, int level)
    {
        double figure = FigureOf(totals, level);
        if (double.IsNaN(figure) || resamples.Length == 0)
        {
            return null;
        }

        var sorted = new double[resamples.Length];
        int known = 0;
        foreach (double[] resample in resamples)
        {
            double own = FigureOf(resample, level);
            sorted[known] = own;
            known += double.IsNaN(own) ? 0 : 1;
        }

        sorted.AsSpan(0, known).Sort();
        Interval interval = ResamplingIntervals.Percentile(sorted.AsSpan(0, known));
        if (_columns.IsShare && figure is 0 or 1)
        {
            // Resamples of nothing but successes show no spread at all.
            double trials = totals[(level * FigureColumns.Count) + 1];
            return Proportions.Wilson((long)(figure * trials), (long)trials);
        }

        return interval;
    }

    // The direction in which figures that never get better fit them best.
    private bool IsWorseDownwards(double[] totals, int[] defined)
    {
        double[] all = [.. defined.Select(i => QualityAt(totals, i))];

        // Worse than any number stands for somewhat worse than the worst number.
        double[] finite = [.. all.Where(double.IsFinite)];
        double worst = finite.Length == 0 ? 0 : (2 * finite.Min()) - finite.Max() - 1;
        double[] up = [.. all.Select(q => double.IsFinite(q) ? q : worst)];
        double[] weights = [.. defined.Select(i => totals[(i * FigureColumns.Count) + 1])];
        return Misfit([.. up.Reverse()], [.. weights.Reverse()]) < Misfit(up, weights);
    }

    private static double Misfit(double[] values, double[] weights)
    {
        double[] fit = [.. values];
        IsotonicFit.Falling(fit, weights);
        return fit.Zip(values, (f, v) => (f - v) * (f - v)).Zip(weights, (d, w) => d * w).Sum();
    }

    // Only read from now on: what lies as it should need not be copied.
    private double[] Turned(double[] sums)
    {
        if (_isInOrder)
        {
            return sums;
        }

        var turned = new double[_order.Length * FigureColumns.Count];
        for (int i = 0; i < _order.Length; i++)
        {
            sums.AsSpan(_order[i] * FigureColumns.Count, FigureColumns.Count).CopyTo(turned.AsSpan(i * FigureColumns.Count));
        }

        return turned;
    }
}
