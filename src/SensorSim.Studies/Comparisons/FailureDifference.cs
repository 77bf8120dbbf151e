// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>The failure points of two detectors and how they differ.</summary>
public sealed record FailureDifference
{
    /// <summary>The first's failure point.</summary>
    public required FailurePoint First { get; init; }

    /// <summary>The second's failure point.</summary>
    public required FailurePoint Second { get; init; }

    /// <summary>Second less first [unit of the key]; null unless both are found.</summary>
    public double? Difference => Second.Level - First.Level;

    /// <summary>Its 95 % interval from the same resamples for both; an end is infinite where resamples of one do not cross. Null when nothing can be told.</summary>
    public Interval? Interval { get; init; }

    /// <summary>The same interval at the confidence of the gate.</summary>
    public Interval? GateInterval { get; init; }

    /// <summary>Whether a smaller level is better, because things get worse upwards in no key of this search; null when the two do not agree.</summary>
    public bool? IsSmallerBetter { get; init; }

    /// <summary>What is shown of the second.</summary>
    public DifferenceVerdict Verdict => VerdictOf(Interval);

    /// <summary>What an interval shows.</summary>
    /// <param name="interval">The interval.</param>
    internal DifferenceVerdict VerdictOf(Interval? interval) => interval is not Interval i || IsSmallerBetter is not bool isSmaller ? DifferenceVerdict.Unknown
        : i.Low > 0 ? isSmaller ? DifferenceVerdict.Worse : DifferenceVerdict.Better
        : i.High < 0 ? isSmaller ? DifferenceVerdict.Better : DifferenceVerdict.Worse
        : DifferenceVerdict.NoDifferenceShown;

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
        if (first.Estimate is null || second.Estimate is null || AxisOf(first, second) is not Axis axis)
        {
            return difference;
        }

        difference = difference with { IsSmallerBetter = axis.IsTurned };
        if (first.Estimate.Found.Count == 0 || first.Estimate.Found.Count != second.Estimate.Found.Count)
        {
            return difference;
        }

        // A curve that was never rejected for one and always for the other is still the same resample.
        (double Low, double High)[] pairs = [.. first.Estimate.Found.Zip(second.Estimate.Found, (a, b) => Span(axis, a, axis, b))];
        double[] lows = [.. pairs.Select(p => p.Low).Order()];
        double[] highs = [.. pairs.Select(p => p.High).Order()];
        double[] withoutSeed = LeftOut(first.Data, first.Estimate, first.Data.WithoutSeed, second.Data, second.Estimate, second.Data.WithoutSeed);
        double[] withoutSubject = LeftOut(first.Data, first.Estimate, first.Data.WithoutSubject, second.Data, second.Estimate, second.Data.WithoutSubject);
        return difference with { Interval = At(0.95), GateInterval = At(gateConfidence) };

        Interval? At(double confidence)
        {
            double moved = CrossingInterval.Confidence(withoutSeed, withoutSubject, confidence);
            double low = ResamplingIntervals.Percentile(lows, moved).Low;
            double high = ResamplingIntervals.Percentile(highs, moved).High;
            return double.IsInfinity(low) && double.IsInfinity(high) && low != high ? null : new Interval(low, high);
        }
    }

    // Which way things get worse. A detector that meets the requirement everywhere or nowhere may not tell; then the other one does.
    private static Axis? AxisOf((FailurePoint Point, SearchData Data, CrossingEstimate? Estimate) first, (FailurePoint Point, SearchData Data, CrossingEstimate? Estimate) second)
    {
        bool isFirstFlat = first.Estimate!.Found.All(c => double.IsInfinity(c.Low) && c.Low == c.High);
        bool isSecondFlat = second.Estimate!.Found.All(c => double.IsInfinity(c.Low) && c.Low == c.High);
        return first.Data.Axis == second.Data.Axis || isSecondFlat ? first.Data.Axis
            : isFirstFlat ? second.Data.Axis
            : null;
    }

    // Ends of second − first. Where both lie beyond the levels on one side, nothing is known of their difference.
    private static (double Low, double High) Span(Axis firstAxis, Crossing first, Axis secondAxis, Crossing second)
    {
        (double a, double b) = Ends(firstAxis, first);
        (double c, double d) = Ends(secondAxis, second);
        (double low, double high) = (c - b, d - a);
        return (double.IsNaN(low) ? double.NegativeInfinity : low, double.IsNaN(high) ? double.PositiveInfinity : high);
    }

    private static (double Low, double High) Ends(Axis axis, Crossing crossing)
    {
        (double a, double b) = (axis.Level(crossing.Low), axis.Level(crossing.High));
        return (Math.Min(a, b), Math.Max(a, b));
    }

    private static double[] LeftOut(SearchData firstData, CrossingEstimate first, double[][] firstSums, SearchData secondData, CrossingEstimate second, double[][] secondSums) =>
    [
        .. firstSums.Zip(secondSums, (a, b) => Middle(firstData.Axis, first.Finder.Find(a)) is double x && Middle(secondData.Axis, second.Finder.Find(b)) is double y ? y - x : double.NaN)
            .Where(double.IsFinite),
    ];

    private static double Middle(Axis axis, Crossing crossing) => (axis.Level(crossing.Low) + axis.Level(crossing.High)) / 2;
}
