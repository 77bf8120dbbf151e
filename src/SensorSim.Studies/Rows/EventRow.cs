// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Rows;

/// <summary>What a run counted of one kind of event in one channel: whole numbers only, so that pooling loses nothing.</summary>
public sealed record EventRow
{
    /// <summary>Channel of the events.</summary>
    public required ChannelName Channel { get; init; }

    /// <summary>Kind of the events.</summary>
    public required MarkKind Kind { get; init; }

    /// <summary>Matched, missed and extra.</summary>
    public required DetectionCounts Counts { get; init; }

    /// <summary>Matched events whose timing is scored.</summary>
    public required long TimedCount { get; init; }

    /// <summary>Sum of their timing errors [ns].</summary>
    public required Int128 TimingSumNs { get; init; }

    /// <summary>Sum of the squares of their timing errors [ns²].</summary>
    public required Int128 TimingSquaresNs { get; init; }

    /// <summary>95th percentile of the magnitude of their timing errors [ns]; null without any.</summary>
    public required long? TimingP95Ns { get; init; }

    /// <summary>Events in unusable stretches.</summary>
    public required long UnusableTruth { get; init; }

    /// <summary>Detections of such events, or alone there.</summary>
    public required long UnusableDetections { get; init; }

    /// <summary>The row of a score.</summary>
    /// <param name="score">The score.</param>
    public static EventRow Of(EventScore score)
    {
        ArgumentNullException.ThrowIfNull(score);
        return new EventRow
        {
            Channel = score.Channel,
            Kind = score.Kind,
            Counts = score.Counts,
            TimedCount = score.Timing.Count,
            TimingSumNs = score.Timing.Sum,
            TimingSquaresNs = score.Timing.Squares,
            TimingP95Ns = score.TimingP95Ms is double p95 ? (long)Math.Round(p95 * 1e6) : null,
            UnusableTruth = score.UnusableTruth,
            UnusableDetections = score.UnusableDetections,
        };
    }
}
