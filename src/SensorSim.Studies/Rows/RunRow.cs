// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Rows;

/// <summary>What one run of a study gave. Whole numbers only: the same on every machine, to the bit.</summary>
public sealed record RunRow
{
    /// <summary>Number of the run in its study, see <see cref="Plans.StudyPlan"/>.</summary>
    public required long Run { get; init; }

    /// <summary>How the detector behaved.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>One sentence when the verdict is not <see cref="Verdict.Answered"/>; else empty.</summary>
    public required string VerdictReason { get; init; }

    /// <summary>Samples consumed.</summary>
    public required long SampleCount { get; init; }

    /// <summary>Marks given.</summary>
    public required long MarkCount { get; init; }

    /// <summary>Scored time [ns]: without lead-in and last second.</summary>
    public required long ScoredNs { get; init; }

    /// <summary>Events, in order of channel, then kind.</summary>
    public required IReadOnlyList<EventRow> Events { get; init; }

    /// <summary>Readings, in order of channel, then kind.</summary>
    public required IReadOnlyList<ReadingRow> Readings { get; init; }

    /// <summary>The events of a kind in a channel; null when there are none.</summary>
    /// <param name="channel">Channel.</param>
    /// <param name="kind">Kind.</param>
    public EventRow? Find(ChannelName channel, MarkKind kind)
    {
        foreach (EventRow row in Events)
        {
            if (row.Channel == channel && row.Kind == kind)
            {
                return row;
            }
        }

        return null;
    }

    /// <summary>The readings of a kind in a channel; null when there are none.</summary>
    /// <param name="channel">Channel.</param>
    /// <param name="kind">Kind.</param>
    public ReadingRow? FindReading(ChannelName channel, MarkKind kind)
    {
        foreach (ReadingRow row in Readings)
        {
            if (row.Channel == channel && row.Kind == kind)
            {
                return row;
            }
        }

        return null;
    }

    /// <summary>The row of a run's outcome.</summary>
    /// <param name="run">Number of the run.</param>
    /// <param name="outcome">What came out; scored.</param>
    public static RunRow Of(long run, RunOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        if (outcome.Report is not { } report)
        {
            throw new ArgumentException("The run was not scored.", nameof(outcome));
        }

        return new RunRow
        {
            Run = run,
            Verdict = outcome.Verdict,
            VerdictReason = outcome.VerdictReason,
            SampleCount = outcome.SampleCount,
            MarkCount = outcome.MarkCount,
            ScoredNs = report.ScoredEndNs - report.ScoredBeginNs,
            Events = [.. report.Scores.Select(EventRow.Of)],
            Readings = [.. report.Readings.Select(ReadingRow.Of)],
        };
    }
}
