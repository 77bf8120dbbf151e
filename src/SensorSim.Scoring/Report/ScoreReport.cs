// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Report;

/// <summary>The scores of one record.</summary>
public sealed record ScoreReport
{
    /// <summary>One row per kind of event and channel, in order of channel, then kind.</summary>
    public required IReadOnlyList<EventScore> Scores { get; init; }

    /// <summary>One row per kind of reading and channel, in order of channel, then kind.</summary>
    public required IReadOnlyList<ReadingScore> Readings { get; init; }

    /// <summary>The flag of irregular rhythm; null without an ECG, or when neither detector nor truth speaks of it.</summary>
    public RhythmScore? Rhythm { get; init; }

    /// <summary>First scored instant [ns]; the lead-in ends here.</summary>
    public required long ScoredBeginNs { get; init; }

    /// <summary>First instant no longer scored [ns].</summary>
    public required long ScoredEndNs { get; init; }

    /// <summary>Largest distance of a truth and its detection [ns].</summary>
    public required long WindowNs { get; init; }

    /// <summary>Events and readings judged early because a fixed capacity was reached; see <see cref="Matching.EventMatcher"/>.</summary>
    public required long EarlyClosingCount { get; init; }

    /// <summary>Events fed later than the holding time allows.</summary>
    public required long LateCount { get; init; }

    /// <summary>Unusable stretches that found no room.</summary>
    public required long SpanOverflowCount { get; init; }

    /// <summary>Truth rows of channels that the stream does not have.</summary>
    public required long ForeignTruthCount { get; init; }

    /// <summary>Marks that make no row (gates, other readings, channels that the stream does not have).</summary>
    public required long UnscoredMarkCount { get; init; }

    /// <summary>Whether every fixed capacity and the holding time sufficed, so that the figures are those of the whole record.</summary>
    public bool IsExact => EarlyClosingCount == 0 && LateCount == 0 && SpanOverflowCount == 0;

    /// <summary>The row of a kind in a channel; null when there is none.</summary>
    /// <param name="channel">Channel.</param>
    /// <param name="kind">Kind of event.</param>
    public EventScore? Find(ChannelName channel, MarkKind kind) =>
        Scores.FirstOrDefault(s => s.Channel == channel && s.Kind == kind);

    /// <summary>The row of a reading in a channel; null when there is none.</summary>
    /// <param name="channel">Channel.</param>
    /// <param name="kind">Kind of reading.</param>
    public ReadingScore? FindReading(ChannelName channel, MarkKind kind) =>
        Readings.FirstOrDefault(s => s.Channel == channel && s.Kind == kind);
}
