// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>The failure points of two detectors and how they differ.</summary>
public sealed record FailureDifference
{
    // Figures at the two ends of the levels that differ by fewer standard errors do not tell which way things get worse.
    private const double SureErrors = 3;

    /// <summary>The first's failure point.</summary>
    public required FailurePoint First { get; init; }

    /// <summary>The second's failure point.</summary>
    public required FailurePoint Second { get; init; }

    /// <summary>Second less first [unit of the key]; null unless both are found.</summary>
    public double? Difference => Second.Level - First.Level;

    /// <summary>
    /// Where one lies beyond the levels and the other does not lie there too: second less first with the last level in its place, and whether the difference lies below that;
    /// null where there is no such bound.
    /// </summary>
    public (double Value, bool IsBelow)? Bound
    {
        get
        {
            (double? first, double? second) = (LastLevel(First), LastLevel(Second));
            return (first ?? First.Level) is not double a || (second ?? Second.Level) is not double b || (first is null && second is null) || first == second ? null
                : (b - a, second is null ? first == Levels(First).Max() : second == Levels(Second).Min());
        }
    }

    /// <summary>
    /// Its 95 % interval from the same resamples for both; a failure point beyond the levels lies anywhere there, so an end may be infinite. Null when nothing can be told.
    /// </summary>
    public Interval? Interval { get; init; }

    /// <summary>The same interval at the confidence of the gate.</summary>
    public Interval? GateInterval { get; init; }

    /// <summary>Whether a smaller level is better, because things get worse upwards in no key of this search; null when nothing tells, or the two do not agree.</summary>
    public bool? IsSmallerBetter { get; init; }

    /// <summary>Whether one meets the requirement at every level and the other at none, in every resample too: then there is no need to know which way things get worse.</summary>
    internal bool IsAllAgainstNone { get; init; }

    /// <summary>What is shown of the second.</summary>
    public DifferenceVerdict Verdict => VerdictOf(Side);

    /// <summary>The same at the confidence of the gate.</summary>
    internal DifferenceVerdict GateVerdict => VerdictOf(GateSide);

    // On which side of 0 the whole difference lies: -1, 1, or 0 for neither. Its interval alone does not tell: what lies beyond the last level differs from what lies there.
    private int Side { get; init; }

    private int GateSide { get; init; }

    private DifferenceVerdict VerdictOf(int side) =>
        IsAllAgainstNone ? Second.State == FailurePointState.MetEverywhere ? DifferenceVerdict.Better : DifferenceVerdict.Worse
        : Interval is null || IsSmallerBetter is not bool isSmaller ? DifferenceVerdict.Unknown
        : side == 0 ? DifferenceVerdict.NoDifferenceShown
        : side < 0 == isSmaller ? DifferenceVerdict.Better
        : DifferenceVerdict.Worse;

    /// <summary>The last level beyond which a failure point lies that was not found; null when it was, or when nothing tells on which side.</summary>
    /// <param name="point">One of the two.</param>
    internal double? LastLevel(FailurePoint point)
    {
        double[] levels = [.. Levels(point)];
        bool isBeyondWorst = point.State == FailurePointState.MetEverywhere;
        return levels.Length == 0 || IsSmallerBetter is not bool isSmaller || !(isBeyondWorst || point.State == FailurePointState.MetNowhere) ? null
            : isBeyondWorst == isSmaller ? levels.Min() : levels.Max();
    }

    /// <summary>Finds both and their difference.</summary>
    /// <param name="results">Plan and rows of the pair.</param>
    /// <param name="requirement">The requirement.</param>
    /// <param name="group">The levels.</param>
    /// <param name="gateConfidence">Confidence of the gate.</param>
    internal static FailureDifference Of(StudyResults results, RequirementOnRow requirement, SearchGroup group, double gateConfidence)
    {
        var first = FailureSearch.Search(results, requirement, ComparedPair.First, group, results.Plan.FailurePoint);
        var second = FailureSearch.Search(results, requirement, ComparedPair.Second, group, results.Plan.FailurePoint);
        var difference = new FailureDifference { First = first.Point, Second = second.Point };
        if (first.Estimate is null || second.Estimate is null)
        {
            return difference;
        }

        if (AxisOf(first, second) is not Axis axis)
        {
            return difference with { IsAllAgainstNone = AreOpposite(first.Estimate, second.Estimate) };
        }

        difference = difference with { IsSmallerBetter = axis.IsTurned };
        if (first.Estimate.Found.Count == 0 || first.Estimate.Found.Count != second.Estimate.Found.Count)
        {
            return difference;
        }

        double[] withoutSeed = LeftOut(first.Data, first.Estimate, first.Data.WithoutSeed, second.Data, second.Estimate, second.Data.WithoutSeed);
        double[] withoutSubject = LeftOut(first.Data, first.Estimate, first.Data.WithoutSubject, second.Data, second.Estimate, second.Data.WithoutSubject);
        (double[] Lows, double[] Highs) closed = Sorted(isBeyondOpen: false);
        (double[] Lows, double[] Highs) open = Sorted(isBeyondOpen: true);
        double confidence = CrossingInterval.Confidence(withoutSeed, withoutSubject, 0.95);
        double ofGate = CrossingInterval.Confidence(withoutSeed, withoutSubject, gateConfidence);
        return difference with
        {
            Interval = Known(At(closed, confidence)),
            GateInterval = Known(At(closed, ofGate)),
            Side = SideOf(At(open, confidence)),
            GateSide = SideOf(At(open, ofGate)),
        };

        (double[] Lows, double[] Highs) Sorted(bool isBeyondOpen)
        {
            // A curve that was never rejected for one and always for the other is still the same resample.
            (double Low, double High)[] pairs =
            [
                .. first.Estimate.Found.Zip(second.Estimate.Found, (a, b) => Span(Ends(axis, first.Data, a, isBeyondOpen), Ends(axis, second.Data, b, isBeyondOpen))),
            ];
            return ([.. pairs.Select(p => p.Low).Order()], [.. pairs.Select(p => p.High).Order()]);
        }
    }

    private static Interval At((double[] Lows, double[] Highs) sorted, double confidence) =>
        new(ResamplingIntervals.Percentile(sorted.Lows, confidence).Low, ResamplingIntervals.Percentile(sorted.Highs, confidence).High);

    private static Interval? Known(Interval interval) => double.IsInfinity(interval.Low) && double.IsInfinity(interval.High) ? null : interval;

    private static int SideOf(Interval interval) => interval.Low > 0 ? 1 : interval.High < 0 ? -1 : 0;

    private static IEnumerable<double> Levels(FailurePoint point) => point.Levels.Where(l => l.Figure is not null).Select(l => l.Level);

    // Which way things get worse. A detector that meets the requirement everywhere or nowhere may not tell; then the other one does.
    private static Axis? AxisOf((FailurePoint Point, SearchData Data, CrossingEstimate? Estimate) first, (FailurePoint Point, SearchData Data, CrossingEstimate? Estimate) second)
    {
        bool doesFirstTell = Tells(first.Point, first.Data);
        bool doesSecondTell = Tells(second.Point, second.Data);
        return doesFirstTell && doesSecondTell ? first.Data.Axis == second.Data.Axis ? first.Data.Axis : null
            : doesFirstTell ? first.Data.Axis
            : doesSecondTell ? second.Data.Axis
            : null;
    }

    private static bool Tells(FailurePoint point, SearchData data) => point.State == FailurePointState.Found || data.IsBetter(0, data.Places.Length - 1, SureErrors);

    private static bool AreOpposite(CrossingEstimate first, CrossingEstimate second) =>
        (IsAlways(first, double.PositiveInfinity) && IsAlways(second, double.NegativeInfinity)) || (IsAlways(first, double.NegativeInfinity) && IsAlways(second, double.PositiveInfinity));

    private static bool IsAlways(CrossingEstimate estimate, double place) => estimate.Found.Append(estimate.Crossing).All(c => c.Low == place && c.High == place);

    // Ends of second − first. Where both lie beyond the levels on one side, nothing is known of their difference.
    private static (double Low, double High) Span((double Low, double High) first, (double Low, double High) second) => (second.Low - first.High, second.High - first.Low);

    // Levels between which a crossing lies. One beyond the levels lies between the last one and the infinite; one that was found the other way round lies anywhere.
    private static (double Low, double High) Ends(Axis axis, SearchData data, Crossing crossing, bool isBeyondOpen)
    {
        if (double.IsFinite(crossing.Low) && double.IsFinite(crossing.High) && data.Axis == axis)
        {
            (double a, double b) = (axis.Level(crossing.Low), axis.Level(crossing.High));
            return (Math.Min(a, b), Math.Max(a, b));
        }

        return crossing.Low != crossing.High || double.IsFinite(crossing.Low) ? (double.NegativeInfinity, double.PositiveInfinity)
            : double.IsPositiveInfinity(crossing.Low) == axis.IsTurned ? (double.NegativeInfinity, data.Ordered.Min(l => isBeyondOpen ? Math.BitDecrement(l.Level) : l.Level))
            : (data.Ordered.Max(l => isBeyondOpen ? Math.BitIncrement(l.Level) : l.Level), double.PositiveInfinity);
    }

    private static double[] LeftOut(SearchData firstData, CrossingEstimate first, double[][] firstSums, SearchData secondData, CrossingEstimate second, double[][] secondSums) =>
    [
        .. firstSums.Zip(secondSums, (a, b) => Middle(firstData.Axis, first.Finder.Find(a)) is double x && Middle(secondData.Axis, second.Finder.Find(b)) is double y ? y - x : double.NaN)
            .Where(double.IsFinite),
    ];

    private static double Middle(Axis axis, Crossing crossing) => (axis.Level(crossing.Low) + axis.Level(crossing.High)) / 2;
}
