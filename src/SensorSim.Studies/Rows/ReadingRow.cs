// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Rows;

/// <summary>What a run counted of one kind of reading in one channel: whole numbers only, so that pooling loses nothing.</summary>
public sealed record ReadingRow
{
    /// <summary>Channel of the readings.</summary>
    public required ChannelName Channel { get; init; }

    /// <summary>Kind of the readings.</summary>
    public required MarkKind Kind { get; init; }

    /// <summary>Readings compared with a true value.</summary>
    public required long Count { get; init; }

    /// <summary>Sum of their errors [millionths of the unit].</summary>
    public required Int128 SumMicro { get; init; }

    /// <summary>Sum of the squares of their errors [millionths of the unit, squared].</summary>
    public required Int128 SquaresMicro { get; init; }

    /// <summary>Compared readings that are off by more than the gate allows.</summary>
    public required long OffCount { get; init; }

    /// <summary>Readings where truth has nothing to read.</summary>
    public required long NothingThereCount { get; init; }

    /// <summary>Readings in unusable stretches.</summary>
    public required long InUnusableCount { get; init; }

    /// <summary>When the first reading came, lead-in included [ns]; null when none did.</summary>
    public required long? FirstReadingNs { get; init; }

    /// <summary>Scored time in which the signals it needs were usable [ns].</summary>
    public required long UsableNs { get; init; }

    /// <summary>Of this, time with a reading [ns].</summary>
    public required long AvailableNs { get; init; }

    /// <summary>Sum of the times from the reading's own time to its emission, over compared readings [ns].</summary>
    public required Int128 LatencySumNs { get; init; }

    /// <summary>Wrong readings.</summary>
    public long Wrong => OffCount + NothingThereCount + InUnusableCount;

    /// <summary>Readings that could be judged.</summary>
    public long JudgedCount => Count + NothingThereCount + InUnusableCount;

    /// <summary>The row of a score.</summary>
    /// <param name="score">The score.</param>
    public static ReadingRow Of(ReadingScore score)
    {
        ArgumentNullException.ThrowIfNull(score);
        return new ReadingRow
        {
            Channel = score.Channel,
            Kind = score.Kind,
            Count = score.Errors.Count,
            SumMicro = score.Errors.Sum,
            SquaresMicro = score.Errors.Squares,
            OffCount = score.OffCount,
            NothingThereCount = score.NothingThereCount,
            InUnusableCount = score.InUnusableCount,
            FirstReadingNs = score.FirstReadingNs,
            UsableNs = score.UsableNs,
            AvailableNs = score.AvailableNs,
            LatencySumNs = score.Latency.Sum,
        };
    }
}
