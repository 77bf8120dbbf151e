// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>One search: one requirement, one detector, one key.</summary>
internal static class FailureSearch
{
    // What a detector that breaks down this often reaches in between is no performance.
    private const double LargestUnansweredShare = 0.05;

    private const int CurvePoints = 101;

    /// <summary>Searches.</summary>
    /// <param name="results">Plan and rows.</param>
    /// <param name="requirement">The requirement.</param>
    /// <param name="detector">Index of the detector.</param>
    /// <param name="group">The levels.</param>
    /// <param name="settings">Definition, shape, resamples.</param>
    public static FailurePoint Run(StudyResults results, RequirementOnRow requirement, int detector, SearchGroup group, FailurePointSettings settings) =>
        Search(results, requirement, detector, group, settings).Point;

    /// <summary>Searches, and keeps what the failure point was found from; the estimate is null where there was none to make.</summary>
    /// <param name="results">Plan and rows.</param>
    /// <param name="requirement">The requirement.</param>
    /// <param name="detector">Index of the detector.</param>
    /// <param name="group">The levels.</param>
    /// <param name="settings">Definition, shape, resamples.</param>
    public static (FailurePoint Point, SearchData Data, CrossingEstimate? Estimate) Search(
        StudyResults results, RequirementOnRow requirement, int detector, SearchGroup group, FailurePointSettings settings)
    {
        var data = new SearchData(results, requirement, detector, group, settings);
        var point = new FailurePoint
        {
            Requirement = requirement,
            Detector = detector,
            Factor = group.Factor,
            Held = group.Held,
            State = FailurePointState.NoCurve,
            Levels = data.Levels,
            Definition = FailureTexts.Definition(requirement, group.Factor, settings, data, null),
            Warnings = FailureTexts.DataWarnings(data, group.Factor),
        };
        (long all, long unanswered) = results.CountsOf(detector);
        if (unanswered > 0)
        {
            point = point with { Warnings = [.. point.Warnings, FailureTexts.Unanswered(unanswered, all)] };
        }

        if (unanswered > LargestUnansweredShare * all)
        {
            return (point, data, null);
        }

        if (data.Ordered.Count < 2)
        {
            return (point with { Warnings = [.. point.Warnings, "Fewer than two levels have a figure: no curve."] }, data, null);
        }

        if (MetAgain(data) is (int failed, int met))
        {
            return (point with { Warnings = [.. point.Warnings, FailureTexts.MetAgain(data, group.Factor, failed, met)] }, data, null);
        }

        CrossingEstimate estimate = CrossingEstimate.Of(data, settings);
        Crossing crossing = estimate.Crossing;
        FailurePointState state = StateOf(crossing);
        point = point with
        {
            State = state,
            Level = state == FailurePointState.Found ? data.Axis.Level((crossing.Low + crossing.High) / 2) : null,
            Interval = IntervalOf(data.Axis, estimate.Interval),
            Curve = state == FailurePointState.NoCurve ? [] : CurveOf(data, estimate),
            Definition = FailureTexts.Definition(requirement, group.Factor, settings, data, estimate),
            Warnings = [.. point.Warnings, .. FailureTexts.EstimateWarnings(data, group.Factor, estimate)],
        };
        return (point, data, estimate);
    }

    private static FailurePointState StateOf(Crossing crossing) => crossing switch
    {
        { Low: double.PositiveInfinity } => FailurePointState.MetEverywhere,
        { High: double.NegativeInfinity } => FailurePointState.MetNowhere,
        _ when double.IsFinite(crossing.Low) && double.IsFinite(crossing.High) => FailurePointState.Found,
        _ => FailurePointState.NoCurve,
    };

    // An interval without an end says nothing.
    private static Interval? IntervalOf(Axis axis, Interval? places)
    {
        if (places is not Interval p || (double.IsInfinity(p.Low) && double.IsInfinity(p.High)))
        {
            return null;
        }

        double a = axis.Level(p.Low);
        double b = axis.Level(p.High);
        return new Interval(Math.Min(a, b), Math.Max(a, b));
    }

    // A level at which the requirement surely fails and a worse one at which it is surely met.
    private static (int Failed, int Met)? MetAgain(SearchData data)
    {
        double target = data.Columns.Target;
        for (int failed = 0; failed < data.Ordered.Count; failed++)
        {
            bool isSure = IsSure(data, failed, quality => quality < target);
            for (int met = failed + 1; isSure && met < data.Ordered.Count; met++)
            {
                if (IsSure(data, met, quality => quality >= target) && data.IsBetter(met, failed, 3))
                {
                    return (failed, met);
                }
            }
        }

        return null;
    }

    private static bool IsSure(SearchData data, int index, Func<double, bool> test) =>
        data.Ordered[index].Interval is Interval i
        && test(data.QualityAt(data.Totals, index)) && test(data.Columns.Quality(i.Low)) && test(data.Columns.Quality(i.High));

    // The curve crosses the requirement where the failure point is: whoever sees both would not know which to believe.
    private static List<(double Level, double Figure)> CurveOf(SearchData data, CrossingEstimate estimate)
    {
        List<(double Level, double Figure)> curve = estimate.Crossing is { Low: var low, High: var high } && double.IsFinite(low) && double.IsFinite(high) && low < high
            ? StepOf(data, low, high)
            : FittedCurveOf(data, estimate);
        if (data.Axis.IsTurned)
        {
            curve.Reverse();
        }

        return curve;
    }

    // Nothing tells where between two levels a step lies: the figures go on to the middle, which is the failure point, and fall there.
    private static List<(double Level, double Figure)> StepOf(SearchData data, double low, double high)
    {
        var curve = new List<(double Level, double Figure)>(data.Places.Length + 2);
        double middle = data.Axis.Level((low + high) / 2);
        for (int i = 0; i < data.Places.Length; i++)
        {
            double figure = Drawn(data, i);
            if (i > 0 && data.Places[i - 1] == low)
            {
                curve.Add((middle, Drawn(data, i - 1)));
                Add(middle, figure);
            }

            Add(data.Ordered[i].Level, figure);
        }

        return curve;

        // What is worse than any number cannot be drawn.
        void Add(double level, double figure)
        {
            if (double.IsFinite(figure))
            {
                curve.Add((level, figure));
            }
        }
    }

    // As curves have it: of a figure with a sign its magnitude.
    private static double Drawn(SearchData data, int index) =>
        data.Columns.IsShare ? data.Columns.FigureOfShare(data.QualityAt(data.Totals, index)) : -data.QualityAt(data.Totals, index);

    private static List<(double Level, double Figure)> FittedCurveOf(SearchData data, CrossingEstimate estimate)
    {
        var curve = new List<(double Level, double Figure)>(CurvePoints + 1);
        double crossing = estimate.Crossing.Low;
        double first = data.Places[0];
        double width = data.Places[^1] - first;
        for (int i = 0; i < CurvePoints; i++)
        {
            // The ends exactly: logarithm and back must not leave the levels.
            double place = i == CurvePoints - 1 ? data.Places[^1] : first + (width * i / (CurvePoints - 1));
            double level = i == 0 ? data.Ordered[0].Level : i == CurvePoints - 1 ? data.Ordered[^1].Level : data.Axis.Level(place);
            if (i > 0 && crossing > place - (width / (CurvePoints - 1)) && crossing < place)
            {
                Add(data.Axis.Level(crossing), crossing);
            }

            Add(level, place);
        }

        return curve;

        void Add(double level, double place)
        {
            double figure = estimate.Finder.FigureAt(place);
            figure = data.Columns.IsShare ? data.Columns.FigureOfShare(figure) : figure;
            if (!double.IsNaN(figure))
            {
                curve.Add((level, figure));
            }
        }
    }
}
