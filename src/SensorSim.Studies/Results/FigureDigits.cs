// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Results;

/// <summary>How many decimals of a figure of one run, or of several pooled, mean something; for people, files have them all.</summary>
/// <remarks>
/// From an interval, see <see cref="ToldDigits"/>: of a share Wilson's; of a mean 1.96 standard errors SD/√n to either side; of a standard deviation or root mean
/// square 1.96 times itself/√(2n), its standard error for normal errors (textbook, from memory). As if errors were independent, which those of one run, seed or person are not: digits
/// are rather too many than too few. A percentile comes from bins of 0.1, the time to the first reading has as many digits as in the table of readings, and so has the share of time.
/// </remarks>
internal static class FigureDigits
{
    private const double Normal95 = 1.96;

    /// <summary>Decimals of a figure of events; null where nothing tells.</summary>
    public static int? Of(EventScore score, RequiredFigure figure) => figure switch
    {
        RequiredFigure.Sensitivity when score.Sensitivity is double s => ToldDigits.Decimals(s, Between(score.SensitivityLow, score.SensitivityHigh)),
        RequiredFigure.PositivePredictivity when score.PositivePredictivity is double p => ToldDigits.Decimals(p, Between(score.PositivePredictivityLow, score.PositivePredictivityHigh)),
        RequiredFigure.TimingBias => OfMean(score.TimingBiasMs, score.TimingSdMs, score.TimedCount),
        RequiredFigure.TimingSd => OfSpread(score.TimingSdMs, score.TimedCount),
        RequiredFigure.TimingP95 => 1,
        _ => null,
    };

    /// <summary>Decimals of a figure of readings; null where nothing tells.</summary>
    public static int? Of(ReadingScore score, RequiredFigure figure) => figure switch
    {
        RequiredFigure.ReadingBias => OfMean(score.Bias, score.Sd, score.Count),
        RequiredFigure.ReadingSd => OfSpread(score.Sd, score.Count),
        RequiredFigure.ReadingRms => OfSpread(score.Rms, score.Count),
        RequiredFigure.ReadingWrongShare when score.WrongShare is double w => ToldDigits.Decimals(w, Proportions.Wilson(score.Wrong, score.JudgedCount)),
        RequiredFigure.ReadingAvailableShare => 3,
        RequiredFigure.ReadingFirst => 1,
        _ => null,
    };

    /// <summary>Decimals of a figure that is pooled over runs; null where nothing tells.</summary>
    public static int? Of(RunPool pool, RequiredFigure figure) => figure switch
    {
        RequiredFigure.Sensitivity when pool.Figure is double s => ToldDigits.Decimals(s, Proportions.Wilson(pool.Counts.Matched, pool.Counts.Reference)),
        RequiredFigure.PositivePredictivity when pool.Figure is double p => ToldDigits.Decimals(p, Proportions.Wilson(pool.Counts.Matched, pool.Counts.Matched + pool.Counts.Extra)),
        RequiredFigure.TimingBias or RequiredFigure.ReadingBias => OfMean(pool.Figure, pool.Errors.Sd, pool.Errors.Count),
        RequiredFigure.TimingSd or RequiredFigure.ReadingSd or RequiredFigure.ReadingRms => OfSpread(pool.Figure, pool.Errors.Count),
        RequiredFigure.TimingP95 or RequiredFigure.ReadingFirst => 1,
        RequiredFigure.ReadingWrongShare when pool.Figure is double w => ToldDigits.Decimals(w, Proportions.Wilson(pool.Wrong, pool.JudgedCount)),
        RequiredFigure.ReadingAvailableShare => 3,
        _ => null,
    };

    private static int? OfMean(double? mean, double? sd, long count) =>
        mean is double m && sd is double s ? ToldDigits.Decimals(m, Around(m, s / Math.Sqrt(count))) : null;

    private static int? OfSpread(double? spread, long count) => spread is double s ? ToldDigits.Decimals(s, Around(s, s / Math.Sqrt(2.0 * count))) : null;

    // Ends may lie beyond what the figure can be; for digits only the width counts.
    private static Interval Around(double value, double error) => new(value - (Normal95 * error), value + (Normal95 * error));

    private static Interval? Between(double? low, double? high) => low is double l && high is double h ? new Interval(l, h) : null;
}
