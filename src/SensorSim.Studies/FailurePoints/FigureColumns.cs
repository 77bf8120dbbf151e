// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The numbers of a run whose sums over runs give a figure: what resampling adds up instead of rows.</summary>
/// <param name="requirement">The requirement.</param>
/// <param name="passFraction">Null: the pooled figure; else the share of runs that meet the requirement.</param>
internal sealed class FigureColumns(RequirementOnRow requirement, double? passFraction)
{
    /// <summary>Most columns.</summary>
    public const int Count = 3;

    /// <summary>Whether the figure is a share: column 0 counts successes (events, readings, seconds or runs), column 1 trials.</summary>
    public bool IsShare => passFraction is not null || IsShareOfFailures || requirement.Definition.Figure
        is RequiredFigure.Sensitivity or RequiredFigure.PositivePredictivity or RequiredFigure.ReadingAvailableShare;

    /// <summary>Whether the figure is the share of failures, one less the share of successes.</summary>
    public bool IsShareOfFailures => passFraction is null && requirement.Definition.Figure == RequiredFigure.ReadingWrongShare;

    /// <summary>The figure at which the requirement is just met, where larger is better.</summary>
    public double Target => passFraction ?? (requirement.IsLeast ? requirement.Limit : IsShareOfFailures ? 1 - requirement.Limit : -requirement.Limit);

    /// <summary>Puts a run's numbers into columns.</summary>
    /// <param name="row">The row.</param>
    /// <param name="columns">Receives them.</param>
    /// <returns>Events or readings behind them.</returns>
    public long Read(RunRow row, Span<double> columns)
    {
        columns.Clear();
        EventRow? events = row.Find(requirement.Channel, requirement.Definition.Kind);
        ReadingRow? readings = row.FindReading(requirement.Channel, requirement.Definition.Kind);
        long count = events is null ? ReadingCount(readings) : EventCount(events);
        if (passFraction is not null)
        {
            columns[0] = requirement.IsMetBy(row) ? 1 : 0;
            columns[1] = 1;
            return count;
        }

        if (events is not null)
        {
            ReadEvents(events, columns);
        }
        else
        {
            ReadReadings(row, readings, columns);
        }

        return count;
    }

    /// <summary>
    /// The figure of summed columns; not a number when it is undefined, infinite when it is worse than any number (a run that never has a reading).
    /// </summary>
    /// <param name="sums">Sums of the columns.</param>
    public double Figure(ReadOnlySpan<double> sums)
    {
        if (IsShare)
        {
            return sums[1] > 0 ? (IsShareOfFailures ? sums[1] - sums[0] : sums[0]) / sums[1] : double.NaN;
        }

        double n = sums[1];
        return requirement.Definition.Figure switch
        {
            _ when n <= 0 => double.NaN,
            RequiredFigure.TimingBias or RequiredFigure.ReadingBias or RequiredFigure.TimingP95 => sums[0] / n,
            RequiredFigure.TimingSd or RequiredFigure.ReadingSd => n > 1 ? Math.Sqrt(Math.Max(0, (sums[2] - (sums[0] * sums[0] / n)) / (n - 1))) : double.NaN,
            RequiredFigure.ReadingFirst => sums[2] > 0 ? double.PositiveInfinity : sums[0] / n,
            RequiredFigure.ReadingRms => Math.Sqrt(sums[2] / n),
            _ => double.NaN,
        };
    }

    /// <summary>The figure with a sign such that larger is better.</summary>
    /// <param name="figure">The figure.</param>
    public double Quality(double figure) => IsShareOfFailures ? 1 - figure : IsShare || requirement.IsLeast ? figure : -Math.Abs(figure);

    /// <summary>The figure whose share of successes is given.</summary>
    /// <param name="share">Share of successes.</param>
    public double FigureOfShare(double share) => IsShareOfFailures ? 1 - share : share;

    private long ReadingCount(ReadingRow? readings) => readings is null ? 0
        : requirement.Definition.Figure == RequiredFigure.ReadingWrongShare ? readings.JudgedCount : readings.Count;

    private long EventCount(EventRow events) => requirement.Definition.Figure switch
    {
        RequiredFigure.Sensitivity => events.Counts.Matched + events.Counts.Missed,
        RequiredFigure.PositivePredictivity => events.Counts.Matched + events.Counts.Extra,
        _ => events.TimedCount,
    };

    private void ReadEvents(EventRow events, Span<double> columns)
    {
        switch (requirement.Definition.Figure)
        {
            case RequiredFigure.Sensitivity or RequiredFigure.PositivePredictivity:
                columns[0] = events.Counts.Matched;
                columns[1] = EventCount(events);
                break;
            case RequiredFigure.TimingP95:
                columns[0] = (events.TimingP95Ns ?? 0) * 1e-6 * events.TimedCount;
                columns[1] = events.TimingP95Ns is null ? 0 : events.TimedCount;
                break;
            default:
                columns[0] = (double)events.TimingSumNs * 1e-6;
                columns[1] = events.TimedCount;
                columns[2] = (double)events.TimingSquaresNs * 1e-12;
                break;
        }
    }

    // As RunPool has it: of a run without any reading the whole scored time is usable time without one.
    private void ReadReadings(RunRow row, ReadingRow? readings, Span<double> columns)
    {
        switch (requirement.Definition.Figure)
        {
            case RequiredFigure.ReadingAvailableShare:
                columns[0] = (readings?.AvailableNs ?? 0) * 1e-9;
                columns[1] = (readings?.UsableNs ?? row.ScoredNs) * 1e-9;
                break;
            case RequiredFigure.ReadingWrongShare:
                columns[0] = readings is null ? 0 : readings.JudgedCount - readings.Wrong;
                columns[1] = readings?.JudgedCount ?? 0;
                break;
            case RequiredFigure.ReadingFirst:
                columns[0] = (readings?.FirstReadingNs ?? 0) * 1e-9;
                columns[1] = 1;
                columns[2] = readings?.FirstReadingNs is null ? 1 : 0;
                break;
            default:
                columns[0] = (double)(readings?.SumMicro ?? 0) * 1e-6;
                columns[1] = readings?.Count ?? 0;
                columns[2] = (double)(readings?.SquaresMicro ?? 0) * 1e-12;
                break;
        }
    }
}
