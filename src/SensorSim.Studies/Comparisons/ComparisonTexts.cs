// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using static System.FormattableString;

namespace SensorSim.Studies.Comparisons;

/// <summary>Sentences of a comparison: the same on the page, in files and on the terminal.</summary>
public static class ComparisonTexts
{
    /// <summary>What every figure of a comparison means, a sentence each.</summary>
    public static IReadOnlyList<string> Definitions { get; } =
    [
        "Difference: the second's pooled figure less the first's, on the same runs; of magnitudes for a bias. Pooled: each event, each reading weighs the same.",
        "Interval: 95 %, percentiles of 2000 resamples of whole seeds and whole persons, drawn with replacement, the same for both detectors and all points; moved out for few seeds and persons as for failure points.",
        "Swap test: the two exchanged in whole seeds (in whole persons when there is one seed), every way for up to 12 seeds, else 9999 drawn ways (1999 at a single point); p is the share of ways, two-sided, with a difference at least as large as the one seen (Fisher 1935).",
        "Better, worse: the interval lies wholly on one side of 0 and p is at most 0.05; of a failure point the interval alone counts. No difference shown: anything else; it does not mean that the two are equal. Cannot be told: a figure is undefined, or there is one seed and one person only.",
        "Runs that meet a requirement: McNemar's exact p tells apart the runs in which only one of the two meets it; given where no two runs share a seed or a person, else the trials are not independent.",
        "Difference of failure points: the second's level less the first's, interval from the same resamples for both; one beyond the levels lies anywhere there, so an end is open where resamples do not cross the requirement on that side.",
        "Differences at single points are many: of a hundred without any true difference some five look better or worse. They are information; nothing is judged by them.",
    ];

    /// <summary>A number with five significant digits; a dash where there is none.</summary>
    /// <param name="value">The number.</param>
    public static string Number(double? value) => value switch
    {
        null => "-",
        double.PositiveInfinity => "+inf",
        double.NegativeInfinity => "-inf",
        double v => (v + 0.0).ToString("G5", CultureInfo.InvariantCulture),
    };

    /// <summary>A difference and its interval, with the digits that the interval gives a meaning to; dashes where there are none.</summary>
    /// <param name="difference">The difference.</param>
    /// <param name="interval">The interval.</param>
    public static (string Difference, string Interval) Told(double? difference, Interval? interval)
    {
        int? decimals = difference is double d ? ToldDigits.Decimals(d, interval) : null;
        return (ToldDigits.Text(difference, decimals), ToldDigits.Text(interval, decimals));
    }

    /// <summary>A figure of one of the two; of a share of events or readings with how many of how many they are, for example <c>0.85 (17 of 20)</c>.</summary>
    /// <param name="difference">The figures of both.</param>
    /// <param name="detector">Which one, <see cref="ComparedPair.First"/> or <see cref="ComparedPair.Second"/>.</param>
    public static string Counted(PairedDifference difference, int detector)
    {
        ArgumentNullException.ThrowIfNull(difference);
        bool isFirst = detector == ComparedPair.First;
        double? figure = isFirst ? difference.First : difference.Second;
        long count = isFirst ? difference.FirstEventCount : difference.SecondEventCount;
        bool isCounted = difference.Figure.Definition.Figure is RequiredFigure.Sensitivity or RequiredFigure.PositivePredictivity or RequiredFigure.ReadingWrongShare;
        return Number(figure) + (isCounted && figure is double share ? Invariant($" ({Math.Round(share * count)} of {count})") : "");
    }

    /// <summary>In how many runs one of the two meets the requirement, for example <c>17 of 20</c>; a dash where nothing is required.</summary>
    /// <param name="difference">The figures of both.</param>
    /// <param name="detector">Which one.</param>
    public static string RunsThatMeet(PairedDifference difference, int detector)
    {
        ArgumentNullException.ThrowIfNull(difference);
        return difference.Met is not MetRuns met ? "-"
            : Invariant($"{met.Both + (detector == ComparedPair.First ? met.OnlyFirst : met.OnlySecond)} of {difference.RunCount}");
    }

    /// <summary>The values of a point, for example <c>ecg_noise.muscle_snr_db = 6</c>; for no point: all points.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="point">Index of the point; null: all of them.</param>
    public static string Place(StudyPlan plan, int? point)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return point is not int p ? plan.Points.Count == 1 ? "the only point" : "all points"
            : plan.Factors.Count == 0 ? "the only point"
            : Held(plan.Factors.Zip(plan.Points[p].Values));
    }

    /// <summary>Keys with their values.</summary>
    /// <param name="held">Keys and values.</param>
    public static string Held(IEnumerable<(Factor Factor, object Value)> held) =>
        string.Join(", ", held.Select(h => $"{h.Factor.Key.Name} = {(h.Value is double d ? (d + 0.0).ToString("R", CultureInfo.InvariantCulture) : h.Value)}"));

    /// <summary>A difference as a sentence, without its name.</summary>
    /// <param name="difference">The difference.</param>
    public static string Sentence(PairedDifference difference)
    {
        ArgumentNullException.ThrowIfNull(difference);
        string unit = difference.Figure.Unit.Length == 0 ? "" : $" {difference.Figure.Unit}";
        (string less, string interval) = Told(difference.Difference, difference.Interval);
        return $"{Counted(difference, ComparedPair.Second)}{unit} after {Counted(difference, ComparedPair.First)}{unit}, difference {less} (95 % interval {interval}; swap test p = {Number(difference.SwapP)})";
    }

    /// <summary>A failure point in a few words, for example <c>3.2 dB</c>, or <c>below -8 dB (met at every level)</c> where it lies beyond the levels.</summary>
    /// <param name="difference">The two failure points: one may tell on which side the other lies.</param>
    /// <param name="point">One of them.</param>
    public static string Level(FailureDifference difference, FailurePoint point)
    {
        ArgumentNullException.ThrowIfNull(difference);
        ArgumentNullException.ThrowIfNull(point);
        string unit = point.Factor.Key.Unit.Length == 0 ? "" : " " + point.Factor.Key.Unit;
        if (point.Level is double level)
        {
            return ToldDigits.Text(level, ToldDigits.Decimals(level, point.Interval)) + unit;
        }

        string met = point.State switch
        {
            FailurePointState.MetEverywhere => "met at every level",
            FailurePointState.MetNowhere => "met at no level",
            _ => "no curve",
        };
        double[] levels = [.. point.Levels.Where(l => l.Figure is not null).Select(l => l.Level)];
        return difference.LastLevel(point) is not double last ? met + (levels.Length == 0 ? "" : $", {Number(levels.Min())} to {Number(levels.Max())}{unit}")
            : $"{((point.State == FailurePointState.MetEverywhere) == difference.IsSmallerBetter ? "below" : "above")} {Number(last)}{unit} ({met})";
    }

    /// <summary>Decimals of a difference of failure points: what its interval tells, or, where one lies beyond the levels, the interval of the other.</summary>
    /// <param name="difference">The difference.</param>
    /// <param name="interval">Its interval.</param>
    public static int? Decimals(FailureDifference difference, Interval? interval)
    {
        ArgumentNullException.ThrowIfNull(difference);
        FailurePoint found = difference.First.Level is null ? difference.Second : difference.First;
        return difference.Difference is double d ? ToldDigits.Decimals(d, interval)
            : found.Level is double level ? ToldDigits.Decimals(level, found.Interval)
            : null;
    }

    /// <summary>
    /// A difference of failure points and its interval, with the digits that the interval gives a meaning to. Where one lies beyond the levels: on which side of what the
    /// difference lies.
    /// </summary>
    /// <param name="difference">The difference.</param>
    /// <param name="interval">Its interval at the confidence that is asked for.</param>
    public static (string Difference, string Interval) Told(FailureDifference difference, Interval? interval)
    {
        ArgumentNullException.ThrowIfNull(difference);
        int? decimals = Decimals(difference, interval);
        string less = difference.Bound is (double bound, bool isBelow) ? $"{(isBelow ? "below" : "above")} {ToldDigits.Text(bound, decimals)}" : ToldDigits.Text(difference.Difference, decimals);
        string span = interval switch
        {
            { Low: double.NegativeInfinity, High: var high } => $"below {ToldDigits.Text(high, decimals)}",
            { High: double.PositiveInfinity, Low: var low } => $"above {ToldDigits.Text(low, decimals)}",
            _ => ToldDigits.Text(interval, decimals),
        };
        return (less, span);
    }

    /// <summary>What is shown of the second's failure point, in words: the verdict, and why where there is none or it needs no interval.</summary>
    /// <param name="difference">The difference.</param>
    public static string Verdict(FailureDifference difference)
    {
        ArgumentNullException.ThrowIfNull(difference);
        (FailurePointState first, FailurePointState second) = (difference.First.State, difference.Second.State);
        string why = difference.Verdict != DifferenceVerdict.Unknown ? ""
            : first == second && first == FailurePointState.MetEverywhere ? ": both met at every level"
            : first == second && first == FailurePointState.MetNowhere ? ": both met at no level"
            : "";
        return difference.Verdict.Text() + why;
    }

    /// <summary>A difference of failure points as a sentence, without its name.</summary>
    /// <param name="difference">The difference.</param>
    public static string Sentence(FailureDifference difference)
    {
        ArgumentNullException.ThrowIfNull(difference);
        string both = difference.First.Level is not null && difference.Second.Level is not null
            ? $"failure point {Level(difference, difference.Second)} after {Level(difference, difference.First)}"
            : $"failure point of the second: {Level(difference, difference.Second)}, of the first: {Level(difference, difference.First)}";
        if (difference.Interval is null && difference.Bound is null)
        {
            return both + (difference.IsAllAgainstNone || difference.Difference is not null ? "" : ", so their difference cannot be told");
        }

        string way = difference.IsSmallerBetter is not bool isSmaller ? "which way is better cannot be told" : isSmaller ? "a smaller level is better" : "a larger level is better";
        (string less, string interval) = Told(difference, difference.Interval);
        return $"{both}, difference {less} (95 % interval {interval}; {way})";
    }
}
