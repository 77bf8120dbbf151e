// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;

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
        "Better, worse: the interval lies wholly on one side of 0 and p is at most 0.05. No difference shown: anything else; it does not mean that the two are equal. Cannot be told: a figure is undefined, or there is one seed and one person only.",
        "Runs that meet a requirement: McNemar's exact p tells apart the runs in which only one of the two meets it; given where no two runs share a seed or a person, else the trials are not independent.",
        "Difference of failure points: the second's level less the first's, interval from the same resamples for both; an end is open where resamples do not cross the requirement on that side.",
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
        string.Join(", ", held.Select(h => $"{h.Factor.Key.Name} = {(h.Value is double d ? d.ToString("R", CultureInfo.InvariantCulture) : h.Value)}"));

    /// <summary>A difference as a sentence, without its name.</summary>
    /// <param name="difference">The difference.</param>
    public static string Sentence(PairedDifference difference)
    {
        ArgumentNullException.ThrowIfNull(difference);
        string unit = difference.Figure.Unit.Length == 0 ? "" : $" {difference.Figure.Unit}";
        (string less, string interval) = Told(difference.Difference, difference.Interval);
        return $"{Number(difference.Second)}{unit} after {Number(difference.First)}{unit}, difference {less} (95 % interval {interval}; swap test p = {Number(difference.SwapP)})";
    }

    /// <summary>A failure point in a few words, for example <c>3.2 dB</c> or <c>met everywhere</c>.</summary>
    /// <param name="point">The failure point.</param>
    public static string Level(FailurePoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return point.State switch
        {
            FailurePointState.Found => $"{ToldDigits.Text(point.Level, point.Level is double level ? ToldDigits.Decimals(level, point.Interval) : null)}{(point.Factor.Key.Unit.Length == 0 ? "" : " " + point.Factor.Key.Unit)}",
            FailurePointState.MetEverywhere => "met everywhere",
            FailurePointState.MetNowhere => "met nowhere",
            _ => "no curve",
        };
    }

    /// <summary>A difference of failure points as a sentence, without its name.</summary>
    /// <param name="difference">The difference.</param>
    public static string Sentence(FailureDifference difference)
    {
        ArgumentNullException.ThrowIfNull(difference);
        string way = difference.IsSmallerBetter is not bool isSmaller ? "which way is better cannot be told" : isSmaller ? "a smaller level is better" : "a larger level is better";
        (string less, string interval) = Told(difference.Difference, difference.Interval);
        return $"failure point {Level(difference.Second)} after {Level(difference.First)}, difference {less} (95 % interval {interval}; {way})";
    }
}
