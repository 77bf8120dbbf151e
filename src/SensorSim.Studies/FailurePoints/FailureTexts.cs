// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Fitting;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Results;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The sentences of a failure point: how it is defined and what to beware of.</summary>
internal static class FailureTexts
{
    private const int FewSeeds = 20;
    private const int FewSubjects = 10;

    /// <summary>The definition.</summary>
    /// <param name="requirement">The requirement.</param>
    /// <param name="factor">The key.</param>
    /// <param name="settings">Settings.</param>
    /// <param name="data">The figures.</param>
    /// <param name="estimate">What was found; null when no curve was drawn.</param>
    public static string Definition(RequirementOnRow requirement, Factor factor, FailurePointSettings settings, SearchData data, CrossingEstimate? estimate)
    {
        string figure = $"{NameOf(requirement.Definition.Figure)} of {requirement.Subject}";
        string limit = $"{(requirement.IsLeast ? "at least" : "at most")} {Text(requirement.Limit)}{UnitOf(requirement.Definition.Key.Unit)}";
        string what = settings.PassFraction is double share
            ? $"at which {Text(share)} of the runs have a {figure} of {limit}"
            : $"at which the {figure}, pooled over all runs of a level, stops being {limit}";
        long runs = data.Levels.Sum(l => l.RunCount);
        string sample = $"{Plural.Of(data.SeedCount, "seed")}{(data.SubjectCount > 1 ? $", {data.SubjectCount} subjects" : "")}, {Plural.Of(runs, "run")} at {Plural.Of(data.Levels.Count, "level")}"
            + (runs == 0 ? "" : $", {Text(Math.Round((double)data.Levels.Sum(l => l.EventCount) / runs, 1))} events or readings a run");
        return $"The level of {factor.Key.Name}{(UnitOf(factor).Length == 0 ? "" : $" ({UnitOf(factor)})")} {what}; {How(estimate, data)}; {sample}.";
    }

    // An interval narrower than this part of the distance of the levels rests on the shape of the curve alone.
    private const double NarrowestShare = 10;

    /// <summary>Warnings that need no curve.</summary>
    /// <param name="data">The figures.</param>
    /// <param name="factor">The key.</param>
    public static IReadOnlyList<string> DataWarnings(SearchData data, Factor factor)
    {
        var warnings = new List<string>();
        if (data.SeedCount is > 1 and < FewSeeds)
        {
            warnings.Add($"Only {data.SeedCount} seeds: intervals from so few are too narrow.");
        }

        if (data.SubjectCount is > 1 and < FewSubjects)
        {
            warnings.Add($"Only {data.SubjectCount} subjects: intervals say little about other people.");
        }

        if (data.UndefinedLevels.Count > 0)
        {
            warnings.Add($"Left out, because nothing could be judged there: {factor.Key.Name} = {string.Join(", ", data.UndefinedLevels.Select(Text))}{UnitOf(UnitOf(factor))}.");
        }

        for (int i = 0; i + 1 < data.Ordered.Count; i++)
        {
            if (data.IsBetter(i + 1, i, 3))
            {
                warnings.Add($"Not steadily worse: better at {Level(data, factor, i + 1)} than at {Level(data, factor, i)}.");
            }
        }

        return warnings;
    }

    /// <summary>Warnings about what was found.</summary>
    /// <param name="data">The figures.</param>
    /// <param name="factor">The key.</param>
    /// <param name="estimate">What was found.</param>
    public static IReadOnlyList<string> EstimateWarnings(SearchData data, Factor factor, CrossingEstimate estimate)
    {
        var warnings = new List<string>();
        if (estimate.IsCurveRejected)
        {
            warnings.Add("The curve did not fit the levels near the crossing; the level is interpolated instead.");
        }

        Crossing crossing = estimate.Crossing;
        if (crossing.Low < crossing.High && double.IsFinite(crossing.Low) && double.IsFinite(crossing.High))
        {
            warnings.Add(
                $"Performance drops between {Text(data.Axis.Level(crossing.Low))} and {Text(data.Axis.Level(crossing.High))}{UnitOf(UnitOf(factor))} with no level in "
                + "between: the middle is given; finer levels would tell more.");
        }

        if (estimate.Interval is { } narrow && GapAt(data.Places, (crossing.Low + crossing.High) / 2) is double gap && narrow.High - narrow.Low < gap / NarrowestShare)
        {
            warnings.Add(
                "The interval is less than a tenth of the distance of the levels there: it holds if the curve has the assumed shape between them, which seeds cannot tell; "
                + "put levels closer, or let the study choose its runs (adaptive).");
        }

        if (estimate.Interval is null)
        {
            warnings.Add("One seed and one subject: no interval.");
        }
        else if (double.IsInfinity(estimate.Interval.Value.Low) || double.IsInfinity(estimate.Interval.Value.High))
        {
            warnings.Add("The interval is open: it reaches beyond the levels of the study.");
        }

        return warnings;
    }

    /// <summary>That a detector did not answer in some runs.</summary>
    /// <param name="unanswered">How many.</param>
    /// <param name="all">Of how many.</param>
    public static string Unanswered(long unanswered, long all) =>
        FormattableString.Invariant($"The detector did not answer in {unanswered} of {all} runs; what it missed there counts, what it would have given for nothing does not.");

    // Distance of the two levels on either side of a place; null outside of the levels.
    private static double? GapAt(double[] places, double place)
    {
        int after = Array.FindIndex(places, p => p >= place);
        return after > 0 ? places[after] - places[after - 1] : null;
    }

    /// <summary>Why there is no curve: met again where it should not be.</summary>
    /// <param name="data">The figures.</param>
    /// <param name="factor">The key.</param>
    /// <param name="failed">Place on the axis where the requirement fails.</param>
    /// <param name="met">Later place where it is met.</param>
    public static string MetAgain(SearchData data, Factor factor, int failed, int met) =>
        $"Not met at {Level(data, factor, failed)} but met at {Level(data, factor, met)} while the figures get worse on the whole that way: there is more than one crossing.";

    private static string How(CrossingEstimate? estimate, SearchData data)
    {
        if (estimate is null)
        {
            return "no curve";
        }

        string resampling = data.Resamples.Length == 0 ? "no interval" : $"95 % interval from {data.Resamples.Length} resamples of whole seeds"
            + (data.SubjectCount > 1 ? " and whole subjects" : "");
        string axis = data.Axis.IsLogarithm ? " of the logarithm of the level" : "";
        if (estimate.Curve is not BinomialCurve curve)
        {
            return $"monotone interpolation{(data.Columns.IsShare ? " on the logit scale" : "")}{axis}, {resampling}";
        }

        string shape = curve.Link == CurveLink.Probit ? "probit" : "logistic";
        string bend = curve.Bend == 0 ? "" : ", a bend";
        string fit = curve.DegreesOfFreedom < 1 ? ""
            : $" (deviance {Text(Math.Round(curve.Deviance, 1))} with {curve.DegreesOfFreedom} {(curve.DegreesOfFreedom == 1 ? "degree" : "degrees")} of freedom if events were independent)";
        return $"{shape} curve{axis} through the {estimate.UsedLevels} best levels, with a lapse of {Text(Math.Round(curve.Lapse, 5))}{bend}{fit}, {resampling}";
    }

    private static string Level(SearchData data, Factor factor, int index) => Text(data.Ordered[index].Level) + UnitOf(UnitOf(factor));

    private static string NameOf(RequiredFigure figure) => figure switch
    {
        RequiredFigure.Sensitivity => "sensitivity",
        RequiredFigure.PositivePredictivity => "positive predictivity",
        RequiredFigure.TimingBias => "magnitude of the timing bias",
        RequiredFigure.TimingSd => "standard deviation of the timing error",
        RequiredFigure.TimingP95 => "95th percentile of the timing error",
        RequiredFigure.ReadingBias => "magnitude of the bias",
        RequiredFigure.ReadingSd => "standard deviation of the error",
        RequiredFigure.ReadingAvailableShare => "share of usable time with a reading",
        RequiredFigure.ReadingWrongShare => "share of wrong readings",
        RequiredFigure.ReadingFirst => "time to the first reading",
        _ => "root mean square of the error",
    };

    private static string UnitOf(Factor factor) => factor.Key is Signals.Keys.NumberKey number ? number.Unit : "";

    private static string UnitOf(string unit) => unit.Length == 0 ? "" : " " + unit;

    // Rounded first: what rounds to nothing has no sign.
    private static string Text(double value) => (Math.Round(value, 6) + 0.0).ToString("0.######", CultureInfo.InvariantCulture);
}
