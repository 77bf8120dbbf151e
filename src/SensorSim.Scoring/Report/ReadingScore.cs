// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Readings;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Report;

/// <summary>Errors of one kind of reading in one channel, in the kind's unit. Figures that are undefined are null.</summary>
public sealed record ReadingScore
{
    internal ReadingScore(ReadingTally tally)
    {
        Channel = tally.Channel;
        Kind = tally.Kind;
        Errors = tally.Errors;
        Latency = tally.LatencyMs;
        Count = tally.Errors.Count;
        Bias = tally.Errors.Mean;
        Sd = tally.Errors.Sd;
        Rms = tally.Errors.Rms;
        P95Abs = tally.Histogram.AbsoluteQuantile(0.95);
        OffCount = tally.OffCount;
        NothingThereCount = tally.NothingThere;
        InUnusableCount = tally.InUnusable;
        OutsideCount = tally.Outside;
        UnjudgedCount = tally.CannotSay;
        LatencyMeanMs = tally.LatencyMs.Mean;
        FirstReadingNs = tally.FirstEmittedNs;
        UsableNs = tally.Usable.TotalNs;
        AvailableNs = tally.Coverage.CoveredNs;
        Histogram = tally.Histogram;
        MeanAbs = Count == 0 ? null : (double)tally.AbsoluteSum / Count * 1e-6;
        MeanAbsPercent = Count == 0 || !IsRate ? null : (double)tally.AbsolutePercentSum / Count * 1e-6;
        LatencyMedianMs = tally.LatencyHistogram.AbsoluteQuantile(0.5);
        LatencyP95Ms = tally.LatencyHistogram.AbsoluteQuantile(0.95);
        UnusableNs = tally.Usable.UnusableNs;
        UnusableAvailableNs = tally.Coverage.UnusableCoveredNs;
    }

    /// <summary>Channel of the readings.</summary>
    public ChannelName Channel { get; }

    /// <summary>Kind of the readings.</summary>
    public MarkKind Kind { get; }

    /// <summary>Unit of bias, SD, RMS and percentile.</summary>
    public string Unit => Kind.Info().ValueUnit;

    /// <summary>Readings compared with a true value.</summary>
    public long Count { get; }

    /// <summary>Mean error.</summary>
    public double? Bias { get; }

    /// <summary>Standard deviation of the error, divisor n − 1.</summary>
    public double? Sd { get; }

    /// <summary>Root mean square of the error.</summary>
    public double? Rms { get; }

    /// <summary>95th percentile of the magnitude of the error, from bins of 0.1 of the unit, evenly filled.</summary>
    public double? P95Abs { get; }

    /// <summary>Wrong readings: off by more than the gate allows, given where there was nothing to read, or in an unusable stretch.</summary>
    public long Wrong => OffCount + NothingThereCount + InUnusableCount;

    /// <summary>Wrong / all that could be judged [ratio].</summary>
    public double? WrongShare => JudgedCount == 0 ? null : (double)Wrong / JudgedCount;

    /// <summary>Readings that could be judged: compared, or wrong without a value to compare with.</summary>
    public long JudgedCount => Count + NothingThereCount + InUnusableCount;

    /// <summary>Compared readings that are off by more than <see cref="ReadingGate.LargestGoodError"/>.</summary>
    public long OffCount { get; }

    /// <summary>Readings where truth has nothing to read (no beat there, no pulse).</summary>
    public long NothingThereCount { get; }

    /// <summary>Readings in unusable stretches.</summary>
    public long InUnusableCount { get; }

    /// <summary>Readings in the lead-in or the last second: not scored.</summary>
    public long OutsideCount { get; }

    /// <summary>Readings that truth cannot judge: not scored.</summary>
    public long UnjudgedCount { get; }

    /// <summary>Mean time from the reading's own time to its emission, over compared readings [ms].</summary>
    public double? LatencyMeanMs { get; }

    /// <summary>When the first reading of the record came [s], lead-in included.</summary>
    public double? FirstReadingS => FirstReadingNs / 1e9;

    /// <summary>
    /// Scored time in which the signals that the reading needs were usable [s]: its channel; for arrivals the ECG too; for the heart rate from
    /// whichever signals are steady any of them.
    /// </summary>
    public double UsableS => UsableNs / 1e9;

    /// <summary>
    /// Of this, time with a reading [s]. A reading stands from its emission on for 5 s, until the next one, or until its gate shuts: of arrivals
    /// the joint gate, else that of its channel (red and infrared have one); the heart rate from whichever signals are steady has none.
    /// </summary>
    public double AvailableS => AvailableNs / 1e9;

    /// <summary><see cref="FirstReadingS"/> in whole nanoseconds.</summary>
    public long? FirstReadingNs { get; }

    /// <summary><see cref="UsableS"/> in whole nanoseconds.</summary>
    public long UsableNs { get; }

    /// <summary><see cref="AvailableS"/> in whole nanoseconds.</summary>
    public long AvailableNs { get; }

    /// <summary>Mean magnitude of the error.</summary>
    public double? MeanAbs { get; }

    /// <summary>Mean magnitude of the error in per cent of the true value, of rates [%]; null for other kinds.</summary>
    public double? MeanAbsPercent { get; }

    /// <summary>Share of compared readings that are off by no more than <see cref="ReadingGate.LargestGoodError"/> [ratio].</summary>
    public double? WithinShare => Count == 0 ? null : 1 - ((double)OffCount / Count);

    /// <summary>Median time from the reading's own time to its emission, from bins of 10 ms [ms].</summary>
    public double? LatencyMedianMs { get; }

    /// <summary>95th percentile of it [ms].</summary>
    public double? LatencyP95Ms { get; }

    /// <summary>Scored time in which a signal that the reading needs was unusable [s].</summary>
    public double UnusableS => UnusableNs / 1e9;

    /// <summary>Of this, time with a reading that should have been withheld [s].</summary>
    public double UnusableAvailableS => UnusableAvailableNs / 1e9;

    /// <summary><see cref="UnusableS"/> in whole nanoseconds.</summary>
    public long UnusableNs { get; }

    /// <summary><see cref="UnusableAvailableS"/> in whole nanoseconds.</summary>
    public long UnusableAvailableNs { get; }

    /// <summary>Share of usable time without a reading: withheld wrongly [ratio]; null without usable time.</summary>
    public double? WithheldWronglyShare => 1 - AvailableShare;

    /// <summary>Share of unusable time without a reading: withheld rightly [ratio]; null without unusable time.</summary>
    public double? WithheldRightlyShare => UnusableNs == 0 ? null : 1 - ((double)UnusableAvailableNs / UnusableNs);

    private bool IsRate => Kind is MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm or MarkKind.RespirationRateBpm;

    /// <summary>Share of usable time with a reading [ratio].</summary>
    public double? AvailableShare => UsableS == 0 ? null : AvailableS / UsableS;

    /// <summary>Wrong readings in a day of usable time; in a short record a large number from few.</summary>
    public double? WrongPerDay => UsableS == 0 ? null : Wrong * 86400 / UsableS;

    /// <summary>Sums of the errors, in whole millionths of the unit; for pooling records without a loss.</summary>
    public ErrorSums Errors { get; }

    /// <summary>Sums of the times from the reading's own time to its emission, in whole nanoseconds.</summary>
    public ErrorSums Latency { get; }

    /// <summary>Errors in bins of 0.1 of the unit.</summary>
    public ErrorHistogram Histogram { get; }
}
