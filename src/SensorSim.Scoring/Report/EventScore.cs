// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Beats;
using SensorSim.Scoring.Matching;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Report;

/// <summary>Scores of one kind of event in one channel. Figures that are undefined are null.</summary>
public sealed record EventScore
{
    internal EventScore(ChannelName channel, MarkKind kind, EventTally tally, long detectionCount, in ChannelDelay delay, Shutdowns? shutdowns)
    {
        Channel = channel;
        Kind = kind;
        Counts = new DetectionCounts(tally.Matched, tally.Missed, tally.Extra);
        Interval? found = Proportions.Wilson(tally.Matched, Counts.Reference);
        Interval? right = Proportions.Wilson(tally.Matched, tally.Matched + tally.Extra);
        SensitivityLow = found?.Low;
        SensitivityHigh = found?.High;
        PositivePredictivityLow = right?.Low;
        PositivePredictivityHigh = right?.High;
        Timing = tally.TimingMs;
        TimedCount = tally.TimingMs.Count;
        TimingBiasMs = tally.TimingMs.Mean;
        TimingSdMs = tally.TimingMs.Sd;
        TimingP95Ms = tally.Histogram.AbsoluteQuantile(0.95);
        DeclaredDelayMs = delay.DeclaredDelayNs / 1e6;
        ClockOffsetMs = delay.ClockOffsetNs / 1e6;
        ClockPpm = delay.ClockPpm;
        DetectionCount = detectionCount;
        OptionalMatched = tally.OptionalMatched;
        OptionalUnmatched = tally.OptionalUnmatched;
        OutsideTruth = tally.OutsideTruth;
        OutsideDetections = tally.OutsideDetections;
        UnusableTruth = tally.UnusableTruth;
        UnusableDetections = tally.UnusableDetections;
        Histogram = tally.Histogram;
        Classes = [.. HeartBeatClasses.All.Select(tally.OfClass).Where(c => c.Found + c.Missed > 0)];
        Latency = tally.Latency;
        LatencyMedianMs = tally.Latency.AbsoluteQuantile(0.5);
        LatencyP95Ms = tally.Latency.AbsoluteQuantile(0.95);
        IntervalCount = tally.Intervals.Errors.Count;
        IntervalRmsMs = tally.Intervals.Errors.Rms;
        IntervalRmsPercent = tally.Intervals.RmsPercent;
        ShutdownS = shutdowns is { IsDeclared: true } ? shutdowns.TotalNs / 1e9 : null;
        MissedInShutdown = tally.MissedInShutdown;
        SilentS = tally.Silence.SilentNs / 1e9;
    }

    /// <summary>Channel of the events.</summary>
    public ChannelName Channel { get; }

    /// <summary>Kind of the events.</summary>
    public MarkKind Kind { get; }

    /// <summary>Matched, missed and extra together.</summary>
    public DetectionCounts Counts { get; }

    /// <summary>Events that were there and are scored.</summary>
    public long ReferenceCount => Counts.Reference;

    /// <summary>Of these, found.</summary>
    public long Matched => Counts.Matched;

    /// <summary>Of these, not found.</summary>
    public long Missed => Counts.Missed;

    /// <summary>Detections where nothing was.</summary>
    public long Extra => Counts.Extra;

    /// <summary>Share of events found [ratio].</summary>
    public double? Sensitivity => Counts.Sensitivity;

    /// <summary>Lower end of its 95 % interval by Wilson [ratio].</summary>
    public double? SensitivityLow { get; }

    /// <summary>Upper end of its 95 % interval by Wilson [ratio].</summary>
    public double? SensitivityHigh { get; }

    /// <summary>Share of detections that are right [ratio].</summary>
    public double? PositivePredictivity => Counts.PositivePredictivity;

    /// <summary>Lower end of its 95 % interval by Wilson [ratio].</summary>
    public double? PositivePredictivityLow { get; }

    /// <summary>Upper end of its 95 % interval by Wilson [ratio].</summary>
    public double? PositivePredictivityHigh { get; }

    /// <summary>Harmonic mean of sensitivity and positive predictivity [ratio].</summary>
    public double? F1 => Counts.F1;

    /// <summary>Matched events whose timing is scored.</summary>
    public long TimedCount { get; }

    /// <summary>
    /// Mean of detection − truth, delay of the chain taken off [ms]: the detector's own. The raw bias is this plus
    /// <see cref="DeclaredDelayMs"/>, <see cref="ClockOffsetMs"/> and what <see cref="ClockPpm"/> has run up.
    /// </summary>
    public double? TimingBiasMs { get; }

    /// <summary>Standard deviation of detection − truth, divisor n − 1 [ms].</summary>
    public double? TimingSdMs { get; }

    /// <summary>95th percentile of |detection − truth|, from bins of 0.1 ms, evenly filled [ms].</summary>
    public double? TimingP95Ms { get; }

    /// <summary>Declared delay of the channel [ms].</summary>
    public double DeclaredDelayMs { get; }

    /// <summary>What the clock of the channel shows at body time 0, less what is declared [ms].</summary>
    public double ClockOffsetMs { get; }

    /// <summary>How much too fast it runs [parts per million].</summary>
    public double ClockPpm { get; }

    /// <summary>Every detection of the row, scored or not.</summary>
    public long DetectionCount { get; }

    /// <summary>Optional events that a detection pairs with.</summary>
    public long OptionalMatched { get; }

    /// <summary>Optional events that none pairs with.</summary>
    public long OptionalUnmatched { get; }

    /// <summary>Events in the lead-in or the last second.</summary>
    public long OutsideTruth { get; }

    /// <summary>Detections of such events, or alone there.</summary>
    public long OutsideDetections { get; }

    /// <summary>Events in unusable stretches.</summary>
    public long UnusableTruth { get; }

    /// <summary>Detections of such events, or alone there.</summary>
    public long UnusableDetections { get; }

    /// <summary>Scored events by class of beat, found and missed; classes without any are left out.</summary>
    public IReadOnlyList<ClassCounts> Classes { get; }

    /// <summary>Median time from a matched event to its emission, from bins of 10 ms [ms]; null when no detection says when it was given.</summary>
    public double? LatencyMedianMs { get; }

    /// <summary>95th percentile of it [ms].</summary>
    public double? LatencyP95Ms { get; }

    /// <summary>Intervals between detections of neighbouring events, with nothing missed and nothing extra between.</summary>
    public long IntervalCount { get; }

    /// <summary>Root mean square of detected − true interval [ms].</summary>
    public double? IntervalRmsMs { get; }

    /// <summary>The same in per cent of the mean true interval [%].</summary>
    public double? IntervalRmsPercent { get; }

    /// <summary>
    /// Time between lead-in and last second for which the detector itself declares by a shut gate of the channel that it does not work [s]; null when it
    /// never declared anything.
    /// </summary>
    public double? ShutdownS { get; }

    /// <summary>Missed events in that time; they count as missed all the same.</summary>
    public long MissedInShutdown { get; }

    /// <summary>Time in pauses of more than 5 s between detections in which an event was missed [s].</summary>
    public double SilentS { get; }

    /// <summary>Times from event to emission of matched detections in bins of 10 ms [ms].</summary>
    public ErrorHistogram Latency { get; }

    /// <summary>Sums of the timing errors, in whole nanoseconds; for pooling records without a loss.</summary>
    public ErrorSums Timing { get; }

    /// <summary>Timing errors in bins of 0.1 ms, for plots [ms].</summary>
    public ErrorHistogram Histogram { get; }
}
