// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Rows;

/// <summary>
/// Rows of several runs pooled for one figure of one channel: each event, each reading and each second weighs the same. A single run pooled
/// gives that run's own figure.
/// </summary>
/// <remarks>
/// A run in which the detector was silent or crashed counts what it missed. The 95th percentile of the timing cannot be pooled from rows:
/// the mean of the runs' percentiles, weighted with their events, stands for it. Of a run without any reading the whole scored time counts as usable
/// time without one. Time to the first reading is the mean over runs, each weighing the same; undefined, and so not
/// met, when a run has none.
/// </remarks>
public sealed class RunPool
{
    private readonly RequirementDefinition _definition;
    private readonly ChannelName _channel;
    private readonly ErrorSums _errors;
    private DetectionCounts _counts;
    private Int128 _p95Weighted;
    private long _p95Count;
    private Int128 _usableNs;
    private Int128 _availableNs;
    private long _judged;
    private long _wrong;
    private Int128 _firstSumNs;
    private long _withoutReading;

    /// <summary>Creates an empty pool.</summary>
    /// <param name="definition">The figure.</param>
    /// <param name="channel">The channel.</param>
    public RunPool(RequirementDefinition definition, ChannelName channel)
    {
        ArgumentNullException.ThrowIfNull(definition);
        _definition = definition;
        _channel = channel;
        _errors = new ErrorSums(1e-6);
    }

    /// <summary>Runs added.</summary>
    public long RunCount { get; private set; }

    /// <summary>Of these, runs in which the detector did not answer: silent, babbling, crashed, hung, lying or late.</summary>
    public long UnansweredCount { get; private set; }

    /// <summary>Matched, missed and extra of all runs, when the figure is one of events.</summary>
    public DetectionCounts Counts => _counts;

    /// <summary>Errors of all runs: of timing in ms, or of readings in their unit.</summary>
    public ErrorSums Errors => _errors;

    /// <summary>Readings that could be judged.</summary>
    internal long JudgedCount => _judged;

    /// <summary>Of these, wrong ones.</summary>
    internal long Wrong => _wrong;

    /// <summary>The figure; null when it is undefined.</summary>
    public double? Figure => _definition.Figure switch
    {
        RequiredFigure.Sensitivity => _counts.Sensitivity,
        RequiredFigure.PositivePredictivity => _counts.PositivePredictivity,
        RequiredFigure.TimingBias or RequiredFigure.ReadingBias => _errors.Mean,
        RequiredFigure.TimingSd or RequiredFigure.ReadingSd => _errors.Sd,
        RequiredFigure.TimingP95 => _p95Count == 0 ? null : (double)_p95Weighted / _p95Count / 1e6,
        RequiredFigure.ReadingRms => _errors.Rms,
        RequiredFigure.ReadingAvailableShare => _usableNs == 0 ? null : (double)_availableNs / (double)_usableNs,
        RequiredFigure.ReadingWrongShare => _judged == 0 ? null : (double)_wrong / _judged,
        RequiredFigure.ReadingFirst => RunCount == 0 || _withoutReading > 0 ? null : (double)_firstSumNs / RunCount / 1e9,
        _ => null,
    };

    /// <summary>Adds a run.</summary>
    /// <param name="row">Its row.</param>
    public void Add(RunRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        RunCount++;
        UnansweredCount += row.Verdict == Running.Verdict.Answered ? 0 : 1;
        if (row.Find(_channel, _definition.Kind) is EventRow events)
        {
            _counts = DetectionCounts.Gross([_counts, events.Counts]);
            _errors.Add(events.TimedCount, events.TimingSumNs, events.TimingSquaresNs);
            if (events.TimingP95Ns is long p95)
            {
                _p95Weighted += (Int128)p95 * events.TimedCount;
                _p95Count += events.TimedCount;
            }
        }

        if (row.FindReading(_channel, _definition.Kind) is ReadingRow readings)
        {
            _errors.Add(readings.Count, readings.SumMicro, readings.SquaresMicro);
            _usableNs += readings.UsableNs;
            _availableNs += readings.AvailableNs;
            _judged += readings.JudgedCount;
            _wrong += readings.Wrong;
            AddFirst(readings.FirstReadingNs);
        }
        else
        {
            _usableNs += row.ScoredNs;
            AddFirst(null);
        }
    }

    private void AddFirst(long? firstNs)
    {
        _firstSumNs += firstNs ?? 0;
        _withoutReading += firstNs is null ? 1 : 0;
    }
}
